import { CsvError, parse } from 'csv-parse/sync';
import { Invalid } from '../../domain/kernel/errors.js';
import { MOST_COLUMNS, type TableLimits, type TextTable } from './table-of-text.js';

const DELIMITERS: readonly string[] = [',', ';', '\t'];

/** A first line by which spreadsheets say their separator. */
const SAID = /^sep=(.)\r?\n/;

type Found = { record: string[]; info: { lines: number } };

const recordsOf = (text: string, delimiter: string): Found[] =>
  parse(text, {
    delimiter,
    relax_column_count: true,
    // An inch is often written as a quotation mark: 38 1/2"
    relax_quotes: true,
    skip_empty_lines: true,
    info: true,
    max_record_size: 200_000,
  }) as unknown as Found[];

/** The separator that stands most often in the first line, outside quotation marks. */
const delimiterOf = (text: string): string => {
  const said = SAID.exec(text)?.[1];
  if (said) return said;
  const [first = ''] = text
    .slice(0, 20_000)
    .replace(/"(?:[^"]|"")*"/g, '')
    .trimStart()
    .split(/\r?\n/);
  const count = (delimiter: string): number => first.split(delimiter).length;
  return DELIMITERS.reduce((best, one) => (count(one) > count(best) ? one : best));
};

const fault = (error: unknown): Invalid => {
  const lines = error instanceof CsvError ? (error as unknown as { lines?: number }).lines : undefined;
  const where = lines === undefined ? '' : ` near line ${lines}`;
  return Invalid.field(
    'file',
    `This table cannot be read${where}: a quotation mark is opened and not closed. Mend it in the file and try again.`,
  );
};

/**
 * Reads comma-, semicolon- or tab-separated text. Quoted fields may hold separators, quotation marks and line breaks.
 *
 * @param headed does the first line hold the names of the columns?
 * @throws Invalid when it cannot be read or is too large
 * @see RFC 4180, section 2
 */
export const readTable = (text: string, headed: boolean, limits: TableLimits): TextTable => {
  const delimiter = delimiterOf(text);
  const skipped = SAID.test(text) ? 1 : 0;
  let found: Found[];
  try {
    found = recordsOf(text.replace(SAID, ''), delimiter);
  } catch (error) {
    throw fault(error);
  }
  const filled = found.filter(({ record }) => record.some((cell) => cell.trim() !== ''));
  const [first, ...rest] = filled;
  const rows = headed ? rest : filled;
  if (!first || rows.length === 0) throw Invalid.field('file', limits.nothing);
  const width = Math.max(...filled.slice(0, 50).map(({ record }) => record.length));
  mustFit(rows.length, width, limits);
  return {
    heads: Array.from(
      { length: width },
      (_, place) => (headed && first.record[place]?.trim()) || `Column ${place + 1}`,
    ),
    rows: rows.map(({ record, info }) => ({ line: beginOf(record, info.lines) + skipped, cells: record })),
  };
};

// The parser tells the line on which a record ends.
const beginOf = (record: readonly string[], end: number): number =>
  end - record.reduce((breaks, cell) => breaks + (cell.match(/\n/g)?.length ?? 0), 0);

/** @throws Invalid when a list is longer or wider than is brought in at once */
export const mustFit = (rows: number, width: number, limits: Pick<TableLimits, 'rows'>): void => {
  if (rows > limits.rows)
    throw Invalid.field(
      'file',
      `This list has ${rows} rows; at most ${limits.rows} are brought in at once. Cut the file into parts.`,
    );
  if (width > MOST_COLUMNS)
    throw Invalid.field('file', `This table has ${width} columns; at most ${MOST_COLUMNS} can be read.`);
};
