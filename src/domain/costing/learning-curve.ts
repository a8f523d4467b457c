import { Decimal } from '../kernel/decimal.js';
import { OutOfRange } from '../kernel/errors.js';
import type { Share } from '../kernel/share.js';

const mustBeMeant = (rate: Share, n: number): void => {
  if (rate.lte(0) || rate.gt(1))
    throw new OutOfRange('A learning rate lies above 0 and up to 1 (0.8 is 80 %).');
  if (!Number.isInteger(n) || n < 1) throw new OutOfRange('Count garments in whole numbers from 1.');
};

/** b = ln(rate) / ln 2: each doubling multiplies by the rate. */
const factor = (rate: Share, n: number): Decimal => {
  mustBeMeant(rate, n);
  return new Decimal(n).pow(rate.ln().div(new Decimal(2).ln()));
};

/**
 * The time of the n-th of the same thing, unit (Crawford) form: first × n^(ln rate / ln 2).
 *
 * @param first time of the first, any unit
 * @param rate what a doubling leaves, above 0 to 1: 0.8 for an 80 % curve
 * @param n whole, from 1
 * @returns time in the unit of `first`, unrounded
 * @throws OutOfRange for another rate or count
 * @see W. J. Stevenson, Operations Management, 14th ed. (McGraw-Hill), supplement to chapter 7;
 *   test/reference/making/learning-curve.test.ts
 */
export const timeOfNth = (first: Decimal, rate: Share, n: number): Decimal => first.times(factor(rate, n));

/**
 * The time of the first n together, unit (Crawford) form: Σ first × k^(ln rate / ln 2).
 *
 * @param n whole, 1 to 10,000
 * @returns time in the unit of `first`, unrounded
 * @throws OutOfRange for another rate or count
 * @see test/reference/making/learning-curve.test.ts
 */
export const timeOfFirst = (first: Decimal, rate: Share, n: number): Decimal => {
  mustBeMeant(rate, n);
  if (n > 10_000) throw new OutOfRange('Nobody makes more than 10,000 of one garment here.');
  return Array.from({ length: n }, (_, index) => timeOfNth(first, rate, index + 1)).reduce(
    (sum, time) => sum.plus(time),
    new Decimal(0),
  );
};

/**
 * The average time of the first n, cumulative-average (Wright) form: first × n^(ln rate / ln 2).
 *
 * @param n whole, from 1
 * @returns average time in the unit of `first`, unrounded; × n for the total
 * @throws OutOfRange for another rate or count
 * @see Accounting Coach, What is a learning curve?; test/reference/making/learning-curve.test.ts
 */
export const averageOfFirst = (first: Decimal, rate: Share, n: number): Decimal =>
  first.times(factor(rate, n));

/**
 * The time of the n-th, cumulative-average (Wright) form: total of n − total of n − 1.
 *
 * @param n whole, from 1
 * @returns time in the unit of `first`, unrounded
 * @throws OutOfRange for another rate or count
 * @see R. M. Wideman, Appendix 2, cumulative average; test/reference/making/learning-curve.test.ts
 */
export const timeOfNthByAverage = (first: Decimal, rate: Share, n: number): Decimal => {
  const upTo = averageOfFirst(first, rate, n).times(n);
  return n === 1 ? upTo : upTo.minus(averageOfFirst(first, rate, n - 1).times(n - 1));
};
