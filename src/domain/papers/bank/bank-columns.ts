import type { CurrencyCode } from '../../kernel/currency.js';
import { Money } from '../../kernel/money.js';
import { type DecimalSign, decimalSignIn, readBankAmount } from './bank-amounts.js';
import { type DateOrder, dateOrderIn, readBankDate } from './bank-dates.js';
import type { BankLine } from './bank-line.js';

/** What a column of a statement may hold. */
export const BANK_COLUMNS = {
  date: 'Date',
  amount: 'Amount, with its sign',
  in: 'Amount in (credit)',
  out: 'Amount out (debit)',
  direction: 'In or out, as a letter or sign',
  payer: 'Who paid',
  words: 'Words or reference',
  currency: 'Currency',
} as const;
export type BankColumn = keyof typeof BANK_COLUMNS;

/** A row of the statement as text. */
export type BankRow = { readonly line: number; readonly cells: readonly string[] };

/** What was said about a statement's columns; what the columns show themselves need not be said. */
export type BankMapping = {
  /** By place; undefined where a column is left out. Several may hold words. */
  readonly columns: readonly (BankColumn | undefined)[];
  readonly dateOrder?: DateOrder | undefined;
  readonly decimalSign?: DecimalSign | undefined;
};

const GUESSES: readonly [BankColumn, RegExp][] = [
  [
    'date',
    /^(booking |transaction |posting |value |entry )?date$|^buchungs(tag|datum)|^valuta|^date |^datum$/i,
  ],
  ['in', /credit|paid in|money in|^in$|haben|gutschrift|^crédit/i],
  ['out', /debit|paid out|money out|^out$|soll|lastschrift|^débit/i],
  ['direction', /^(c\/?d|d\/?c|s\/?h|\+\/-|sign|type of entry)$/i],
  ['amount', /amount|betrag|montant|^umsatz$|^sum$/i],
  ['currency', /currency|währung|waehrung|devise|^ccy$/i],
  ['payer', /payer|payee|name|counterpart|beguenstigter|begünstigter|auftraggeber|zahlungspflichtig/i],
  ['words', /reference|text|purpose|details|description|memo|narrative|verwendungszweck|libell/i],
];

/** A first guess at each column by its name, each meaning but words given once. */
export const likelyColumns = (heads: readonly string[]): (BankColumn | undefined)[] => {
  const given = new Set<BankColumn>();
  return heads.map((head) => {
    const guess = GUESSES.find(([, pattern]) => pattern.test(head.trim()))?.[0];
    if (!guess || (guess !== 'words' && given.has(guess))) return undefined;
    given.add(guess);
    return guess;
  });
};

/** What is missing or twice in what was said of the columns. @returns a sentence, or undefined when all is said */
export const columnsTrouble = (columns: readonly (BankColumn | undefined)[]): string | undefined => {
  const count = (column: BankColumn): number => columns.filter((one) => one === column).length;
  const twice = (Object.keys(BANK_COLUMNS) as BankColumn[]).find((one) => one !== 'words' && count(one) > 1);
  if (twice) return `Two columns are said to hold “${BANK_COLUMNS[twice]}”. Keep one.`;
  if (count('date') === 0) return 'Say which column holds the date.';
  if (count('amount') === 0 && count('in') === 0)
    return 'Say which column holds the amount, or what came in.';
  if (count('amount') > 0 && count('in') + count('out') > 0)
    return 'Say either one column with the amount and its sign, or columns for in and out.';
  return undefined;
};

const cellsOf = (row: BankRow, columns: BankMapping['columns'], wanted: BankColumn): string[] =>
  columns.flatMap((column, place) => {
    const cell = column === wanted ? (row.cells[place] ?? '').trim() : '';
    return cell === '' ? [] : [cell];
  });

/** What the columns show by themselves, and what must be asked because they could be read both ways. */
export const mannerOf = (
  rows: readonly BankRow[],
  { columns, dateOrder, decimalSign }: BankMapping,
): { readonly dateOrder: DateOrder | undefined; readonly decimalSign: DecimalSign | undefined } => {
  const all = (...wanted: BankColumn[]): string[] =>
    rows.flatMap((row) => wanted.flatMap((one) => cellsOf(row, columns, one)));
  return {
    dateOrder: dateOrder ?? dateOrderIn(all('date')),
    decimalSign: decimalSign ?? decimalSignIn(all('amount', 'in', 'out')),
  };
};

/** What came of the rows. */
export type BankLines = {
  readonly lines: readonly BankLine[];
  /** What could not be read, with its line. */
  readonly troubles: readonly { readonly line: number; readonly text: string }[];
};

const OUT = /^(d|dr|dbit|debit|s|soll|out|-)$/i;
const IN = /^(c|cr|crdt|credit|h|haben|in|\+)$/i;

/** Words of a cell in one line. They are only ever shown and looked through, never run. */
const inOneLine = (cells: readonly string[]): string => cells.join(' ').replace(/\s+/g, ' ').trim();

/**
 * Reads the rows of a statement by what was said of its columns.
 *
 * @param mapping its `dateOrder` and `decimalSign` are settled
 * @returns every row is either a line or a trouble; nothing is dropped without a word
 * @see test/domain/papers/bank/bank.test.ts
 */
export const readBankLines = (
  rows: readonly BankRow[],
  mapping: BankMapping & { readonly dateOrder: DateOrder; readonly decimalSign: DecimalSign },
  currency: CurrencyCode,
): BankLines => {
  const lines: BankLine[] = [];
  const troubles: { line: number; text: string }[] = [];
  for (const row of rows) {
    const read = readRow(row, mapping, currency);
    if (typeof read === 'string') troubles.push({ line: row.line, text: read });
    else lines.push(read);
  }
  return { lines, troubles };
};

const readRow = (
  row: BankRow,
  mapping: BankMapping & { readonly dateOrder: DateOrder; readonly decimalSign: DecimalSign },
  currency: CurrencyCode,
): BankLine | string => {
  const one = (wanted: BankColumn): string => cellsOf(row, mapping.columns, wanted)[0] ?? '';
  const short = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);
  const on = readBankDate(one('date'), mapping.dateOrder);
  if (!on) return one('date') ? `“${short(one('date'))}” is not a date.` : 'It has no date.';
  const said = one('currency').toUpperCase();
  if (said && said !== currency) return `It is in ${short(said)}, and the books are in ${currency}.`;
  const amount = readRowAmount(one, mapping.decimalSign, currency);
  if (typeof amount === 'string') return amount;
  return {
    place: row.line,
    on,
    amount,
    payer: inOneLine(cellsOf(row, mapping.columns, 'payer')).slice(0, 400),
    words: inOneLine(cellsOf(row, mapping.columns, 'words')).slice(0, 2000),
  };
};

const readRowAmount = (
  one: (wanted: BankColumn) => string,
  sign: DecimalSign,
  currency: CurrencyCode,
): Money | string => {
  const figures: Money[] = [];
  for (const column of ['amount', 'in', 'out'] as const) {
    const text = one(column);
    if (text === '') continue;
    const money = readBankAmount(text, sign, currency);
    if (!money) return `“${text.slice(0, 40)}” is not an amount in ${currency}.`;
    if (column === 'out') figures.push(money.isNegative() ? money : money.negated());
    else figures.push(money);
  }
  const moved = figures.filter((money) => !money.isZero());
  if (moved.length > 1) return 'It has an amount in and an amount out.';
  const [money] = moved;
  if (!money) return figures.length > 0 ? 'Its amount is nought.' : 'It has no amount.';
  const direction = one('direction');
  if (direction === '') return money;
  if (OUT.test(direction)) return money.isNegative() ? money : money.negated();
  return IN.test(direction) ? money : `“${direction.slice(0, 20)}” says neither in nor out.`;
};
