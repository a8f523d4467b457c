import { z } from 'zod';
import { readDecimal } from '../../../domain/kernel/decimal.js';
import { list, name } from '../../../web/api/json-fields.js';

/** Garments and rows one question may bring; a studio of one makes so many in a few hundred years. */
export const MOST_ROWS = 60_000;
/** Kinds and types of one question: what is learnt of each is kept beside all the others. */
const MOST_NAMES = 400;

const WRONG = 'Give minutes from 0 to 1,000,000,000, such as 90.';

/** Minutes as the model takes them: a number, or its text. */
export const modelMinutes = () =>
  z
    .union([z.number(), z.string()], WRONG)
    .transform((sent) => (typeof sent === 'number' ? sent : Number(readDecimal(sent) ?? Number.NaN)))
    .pipe(z.number(WRONG).min(0, WRONG).max(1e9, WRONG))
    .meta({ description: 'Minutes; decimals are welcome.', examples: [90, '12.5'] });

export const repeat = () =>
  z
    .int('Give a whole number from 1.')
    .min(1, 'The first is 1.')
    .max(100_000, 'At most 100,000.')
    .optional()
    .meta({ description: 'How many times this block has been made for this wearer, this one included.' });

const pastOperation = z.strictObject({
  kind: name(),
  plannedMinutes: modelMinutes(),
  actualMinutes: modelMinutes(),
  changeNotReplanned: z.boolean('Say true or false.').optional(),
});

const pastGarment = z.strictObject({
  garmentType: name(),
  operations: list(pastOperation, MOST_ROWS),
  repeat: repeat(),
});

/** Finished garments, oldest first. */
export const history = () =>
  list(pastGarment, MOST_ROWS)
    .superRefine((garments, context) => {
      const say = (message: string) => context.addIssue({ code: 'custom', message });
      const rows = garments.reduce((sum, garment) => sum + garment.operations.length, 0);
      if (rows > MOST_ROWS) say(`At most ${MOST_ROWS} operations in one question; here are ${rows}.`);
      const kinds = new Set(garments.flatMap(({ operations }) => operations.map(({ kind }) => kind)));
      if (kinds.size > MOST_NAMES) say(`At most ${MOST_NAMES} kinds of operation; here are ${kinds.size}.`);
      const types = new Set(garments.map(({ garmentType }) => garmentType));
      if (types.size > MOST_NAMES) say(`At most ${MOST_NAMES} garment types; here are ${types.size}.`);
    })
    .meta({ description: 'Finished garments, oldest first.' });

/** Operations in a history. */
export const rowsIn = (garments: readonly { readonly operations: readonly unknown[] }[]): number =>
  garments.reduce((sum, garment) => sum + garment.operations.length, 0);
