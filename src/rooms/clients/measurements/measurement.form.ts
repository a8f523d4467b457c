import { z } from 'zod';
import { date, line, optionalLine, optionalLines, yesNo } from '../../../web/fields/fields.js';

/** One measurement as it is said: of a dimension by its short name, or by any name. */
const ValueFields = z
  .strictObject({
    dimension: optionalLine(60),
    name: optionalLine(120),
    /** Keeps a name that nobody knows as a dimension of the studio's own. */
    isNew: yesNo(),
    typed: z
      .string('Write the measurement as text, such as "38 1/2 in".')
      .max(400, 'At most 400 characters.'),
    /** Stands by what was typed, after a question. */
    confirmed: yesNo(),
    /** Or takes one of the readings that the question offered. */
    choice: optionalLine(60),
  })
  .refine(({ dimension, name }) => (dimension === '') !== (name === ''), {
    path: ['dimension'],
    message: 'Say which dimension: either by its short name or by any name.',
  });

/** A set of measurements: the same fields on the page and in the JSON interface. */
export const MeasurementFields = z.strictObject({
  takenOn: date('When was this measured?'),
  takenBy: line('Who measured? Write a name or initials.', 200),
  over: optionalLine(200),
  figuration: optionalLines(1000),
  /** Stands by words that a pattern does not need, after the question. */
  figurationConfirmed: yesNo(),
  guardian: optionalLine(400),
  garmentType: optionalLine(60),
  insteadOf: z
    .string()
    .max(60)
    .optional()
    .transform((id) => id || undefined),
  values: z.array(ValueFields).max(200, 'At most 200 measurements in one set.').default([]),
});

export type MeasurementWords = z.output<typeof MeasurementFields>;
export type ValueWords = MeasurementWords['values'][number];
