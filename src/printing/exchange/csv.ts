import { Decimal } from '../../domain/kernel/decimal.js';
import { Money } from '../../domain/kernel/money.js';
import { permittedCharacters } from './characters.js';

/** What a cell holds: an amount or a number as itself, everything else as text; nothing is an empty cell. */
export type CsvCell = Money | Decimal | string | undefined;

/** A column: its heading, and what of a row stands in it. */
export type CsvColumn<Row> = { readonly heading: string; readonly cell: (row: Row) => CsvCell };

export type CsvManner = {
  readonly separator?: ',' | ';' | '\t';
  /** The sign before the decimals of amounts and numbers. */
  readonly decimalSign?: '.' | ',';
  /** A byte order mark at the start, by which spreadsheets know UTF-8. */
  readonly byteOrderMark?: boolean;
};

/** A spreadsheet takes such a cell for a formula; the wide forms of East Asian type count as well. */
const FORMULA = /^[\s\u00a0]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r\n]/;
const PLAIN_NUMBER = /^-?\d+([.,]\d+)?$/;

/** Text as text: an apostrophe before what would be taken for a formula; a plain negative number stays one. */
const harmless = (text: string): string => {
  const kept = permittedCharacters(text);
  return FORMULA.test(kept) && !PLAIN_NUMBER.test(kept) ? `'${kept}` : kept;
};

const written = (cell: CsvCell, decimalSign: string): string => {
  if (cell instanceof Money) return cell.toString().replace('.', decimalSign);
  if (Decimal.isDecimal(cell)) return cell.toFixed().replace('.', decimalSign);
  return harmless(cell ?? '');
};

/**
 * A table as CSV: a heading and a record per row, lines ending CR LF, quotes where a cell needs them.
 *
 * Amounts and numbers are written plainly, without grouping, negative ones with a minus sign. Text that begins with
 * `= + - @`, a tab or a line end gets an apostrophe before it, so that no spreadsheet works it out.
 *
 * @param columns at least one
 * @returns UTF-8 text
 * @see RFC 4180 (IETF, 2005); OWASP, CSV Injection; test/printing/exchange/csv.test.ts
 */
export const csvOf = <Row>(
  columns: readonly CsvColumn<Row>[],
  rows: readonly Row[],
  { separator = ',', decimalSign = '.', byteOrderMark = true }: CsvManner = {},
): string => {
  const quoted = (text: string): string =>
    /["\r\n\t,;']|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  const record = (cells: readonly CsvCell[]): string =>
    `${cells.map((cell) => quoted(written(cell, decimalSign))).join(separator)}\r\n`;
  return [
    byteOrderMark ? '\ufeff' : '',
    record(columns.map(({ heading }) => heading)),
    ...rows.map((row) => record(columns.map(({ cell }) => cell(row)))),
  ].join('');
};
