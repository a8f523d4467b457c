import { z } from 'zod';
import { BANK_COLUMNS, type BankColumn } from '../../../../domain/papers/bank/bank-columns.js';
import { yesNo } from '../../../../web/fields/fields.js';
import { parse } from '../../../../web/forms/parse.js';
import type { Typed } from '../../../../web/forms/typed.js';
import { MOST_COLUMNS, type TableLimits } from '../../../../web/tables/table-of-text.js';

/** What a bank statement may hold. */
export const BANK_LIST: TableLimits = {
  bytes: 6 * 1024 * 1024,
  rows: 20_000,
  nothing: 'There are no lines in this table.',
  noText: 'This is not a text file. Ask the bank for the statement as CSV.',
};

const column = z
  .enum(['', ...(Object.keys(BANK_COLUMNS) as BankColumn[])], 'Choose what the column holds.')
  .transform((said) => (said === '' ? undefined : said));

/** What is said about a statement: the same on the page and in the JSON interface. */
export const StatementFields = z.strictObject({
  /** Does the first line hold the names of the columns? */
  headed: yesNo(),
  columns: z.array(column).min(1, 'Say what the columns hold.').max(MOST_COLUMNS),
  /** Left empty where the dates show it themselves. */
  dateOrder: z
    .enum(['', 'day-first', 'month-first'])
    .default('')
    .transform((said) => said || undefined),
  decimalSign: z
    .enum(['', '.', ','])
    .default('')
    .transform((said) => said || undefined),
  /** Leave out the lines that cannot be read? */
  leaveTroubles: yesNo(),
});
export type StatementWords = z.output<typeof StatementFields>;

/** The same out of a form, where columns are `to.0`, `to.1` and so on. */
export const statementIn = (typed: Typed): StatementWords => {
  const places = Object.keys(typed).flatMap((name) => /^to\.(\d{1,3})$/.exec(name)?.[1] ?? []);
  const many = Math.max(0, ...places.map((place) => Number(place) + 1));
  const columns = Array.from({ length: many }, (_, place) => typed[`to.${place}`] ?? '');
  const { headed, dateOrder, decimalSign, leaveTroubles } = typed;
  return parse(StatementFields, { headed, columns, dateOrder, decimalSign, leaveTroubles });
};

/** What is to be done with one line. */
export type LineChoice =
  | { readonly does: 'aside' }
  | { readonly does: 'take'; readonly clientId: string; readonly papers: readonly string[] }
  | { readonly does: 'take-by-code'; readonly code: string };

/** A proposal as a form carries it. */
export const choiceText = (clientId: string, papers: readonly string[]): string =>
  `${clientId}:${papers.join(',')}`;

/** What was chosen for each line of a page: `line.KEY` a proposal, `who.KEY` a client's number. */
export const choicesIn = (typed: Typed): { lineId: string; choice: LineChoice }[] =>
  Object.entries(typed).flatMap(([name, said]): { lineId: string; choice: LineChoice }[] => {
    const lineId = /^line\.(.{1,60})$/.exec(name)?.[1];
    if (lineId === undefined) return [];
    const code = (typed[`who.${lineId}`] ?? '').trim();
    if (code !== '') return [{ lineId, choice: { does: 'take-by-code', code } }];
    if (said === 'aside') return [{ lineId, choice: { does: 'aside' } }];
    const [, clientId, papers] = /^([^:]{1,60}):(.{0,2000})$/.exec(said) ?? [];
    if (clientId === undefined) return [];
    return [
      { lineId, choice: { does: 'take', clientId, papers: (papers ?? '').split(',').filter(Boolean) } },
    ];
  });
