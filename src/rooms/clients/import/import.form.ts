import { z } from 'zod';
import { oneOf, optionalDate, optionalLine, yesNo } from '../../../web/fields/fields.js';
import { MOST_COLUMNS, type TableLimits } from '../../../web/tables/table-of-text.js';

/** What a list of clients may hold. */
export const CLIENT_LIST: TableLimits = {
  bytes: 2 * 1024 * 1024,
  rows: 5000,
  nothing: 'There are no clients in this table.',
  noText: 'This is not a text file. Save the table as CSV, or the contacts as vCard.',
};

/** What is done with somebody who is there already. */
export const TWINS = ['leave', 'measure', 'add'] as const;

/** What is said about a list to bring in, beside its text: the same on the page and in the JSON interface. */
export const ImportFields = z.strictObject({
  /** Does the first line hold the names of the columns? */
  headed: yesNo(),
  columns: z
    .array(z.strictObject({ to: optionalLine(80), unit: oneOf(['cm', 'in', 'mm'], 'Choose cm, in or mm.') }))
    .max(MOST_COLUMNS)
    .default([]),
  takenOn: optionalDate(),
  takenBy: optionalLine(200),
  twins: oneOf(TWINS).default('leave'),
  /** Leaves out the rows in which something cannot be read. */
  leaveTroubles: yesNo(),
  /** Keeps measurements that look like a slip, after they were looked at. */
  keepUnusual: yesNo(),
});

export type ImportWords = z.output<typeof ImportFields>;
