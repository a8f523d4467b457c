import { z } from 'zod';
import { yesNo } from '../../../web/fields/fields.js';

/** A measuring list: names in the order of measuring; `isNew` keeps names that nobody knows as the studio's own. */
export const MeasuringListFields = z.strictObject({
  list: z
    .array(z.string().trim().max(120, 'A name has at most 120 letters.'))
    .max(100, 'At most 100 measurements in one list.')
    .transform((names) => names.filter((name) => name !== '')),
  isNew: yesNo(),
});

export type MeasuringListWords = z.output<typeof MeasuringListFields>;
