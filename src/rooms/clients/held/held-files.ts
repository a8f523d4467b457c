import { csvOf } from '../../../printing/exchange/csv.js';
import type { Held } from '../../../storage/holding/what-is-held.js';

type Cell = {
  readonly kind: string;
  readonly number: string;
  readonly field: string;
  readonly words: string;
};

const inWords = (value: string | number | boolean | null): string => {
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return String(value);
};

/** Everything as one table of four columns: kind, which of them, field, words. */
export const heldAsCsv = (held: Held): string => {
  const cells = held.kinds.flatMap(({ name, rows }) =>
    rows.flatMap((row, place) =>
      Object.entries(row)
        .filter(([field, value]) => !/(^|_)id$/.test(field) && inWords(value) !== '')
        .map(
          ([field, value]): Cell => ({
            kind: name,
            number: String(place + 1),
            field: field.replaceAll('_', ' '),
            words: inWords(value),
          }),
        ),
    ),
  );
  return csvOf(
    [
      { heading: 'Kind', cell: ({ kind }) => kind },
      { heading: 'Which', cell: ({ number }) => number },
      { heading: 'Field', cell: ({ field }) => field },
      { heading: 'Words', cell: ({ words }) => words },
    ],
    cells,
  );
};

/** The same for programs: a list of records by kind. */
export const heldInJson = (code: string, { kinds, acts }: Held): Record<string, unknown> => ({
  client: code,
  historyActs: acts,
  held: kinds
    .filter(({ rows }) => rows.length > 0)
    .map(({ name, fate, rows }) => ({ kind: name, count: rows.length, whenErased: fate, records: rows })),
});
