import { Decimal } from '../../kernel/decimal.js';
import { Invalid } from '../../kernel/errors.js';

/** The widths of the chart's columns, in inches: from and to, narrowest first. */
export const CHART_WIDTHS = [
  [35, 36],
  [39, 39],
  [41, 42],
  [44, 45],
  [50, 50],
  [52, 54],
  [58, 60],
  [66, 66],
] as const;

/** Where the chart is printed. */
export const CHART_SOURCE =
  'Fabric conversion chart, Rutgers Cooperative Extension, as printed by sewwithsarah.com and greenspun.com';

/** Each row is one garment's need in eighths of a yard, column by column. */
const ROWS_IN_EIGHTHS: readonly (readonly number[])[] = [
  [14, 12, 12, 11, 10, 9, 8, 7],
  [16, 14, 14, 13, 12, 11, 10, 9],
  [18, 16, 16, 14, 13, 12, 11, 10],
  [20, 18, 18, 17, 14, 14, 13, 12],
  [23, 20, 20, 18, 16, 15, 14, 13],
  [25, 22, 22, 20, 18, 16, 15, 14],
  [27, 24, 23, 22, 19, 18, 16, 15],
  [30, 26, 25, 23, 21, 19, 18, 17],
  [34, 28, 27, 25, 22, 21, 19, 18],
  [36, 30, 29, 27, 24, 22, 21, 20],
  [38, 32, 31, 29, 26, 23, 22, 21],
  [40, 34, 33, 31, 27, 25, 23, 22],
];

/** A difference of columns from which the chart's own note asks for a quarter more. */
const LARGE_STEP = 3;

/** A need read off the chart. */
export type ChartNeed = {
  /** Yards of the other width. */
  readonly yards: Decimal;
  /** The columns it was read by, in inches, as printed. */
  readonly from: string;
  readonly to: string;
  /** The chart's note asks for a quarter yard more: a large difference, one direction, or sleeves in one. */
  readonly withQuarter: boolean;
};

const printed = (column: number): string => {
  const [from, to] = CHART_WIDTHS[column] ?? [0, 0];
  return from === to ? `${from}″` : `${from}–${to}″`;
};

const outside = (field: string): Invalid =>
  Invalid.field(field, 'The chart knows widths from 35 to 66 inches (89 to 168 cm): reckon by area instead.');

/** The column a known width is read by: the next at or above it, so that the need is never read too small. */
const columnFrom = (inches: Decimal): number => {
  const column = CHART_WIDTHS.findIndex(([, to]) => inches.lte(to));
  if (inches.lt(35) || column < 0) throw outside('width');
  return column;
};

/** The column of the other width: the last whose cloth is no wider. */
const columnTo = (inches: Decimal): number => {
  const column = CHART_WIDTHS.findLastIndex(([from]) => inches.gte(from));
  if (column < 0 || inches.gte(67)) throw outside('otherWidth');
  return column;
};

/**
 * The need at another width, read off the published chart. A lookup: scaling by area does not reproduce it.
 *
 * A length between two rows is read by the longer one; a width between two columns by the safer one.
 *
 * @param yards known need, above 0
 * @param width and `otherWidth` in inches
 * @param addQuarter for cloth of one direction, or sleeves cut in one; a large difference of width adds it by itself
 * @returns yards in eighths
 * @throws Invalid outside the chart
 * @see test/reference/stock/need.test.ts FB-01 to FB-04
 */
export const needByChart = (
  yards: Decimal,
  width: Decimal,
  otherWidth: Decimal,
  addQuarter = false,
): ChartNeed => {
  const [from, to] = [columnFrom(width), columnTo(otherWidth)];
  const row = ROWS_IN_EIGHTHS.find((eighths) => yards.times(8).lte(eighths[from] ?? 0));
  if (yards.lte(0) || !row)
    throw Invalid.field('length', 'The chart ends at 5 yards of 36-inch cloth: reckon by area instead.');
  const withQuarter = addQuarter || Math.abs(from - to) >= LARGE_STEP;
  const eighths = (row[to] ?? 0) + (withQuarter ? 2 : 0);
  return { yards: new Decimal(eighths).div(8), from: printed(from), to: printed(to), withQuarter };
};
