import { Decimal } from './decimal.js';
import { OutOfRange } from './errors.js';

/**
 * Shares a whole number over weights so that the parts add up exactly: each gets the whole part of its exact share,
 * and what is left goes, one by one, to the largest fractions; ties go to the first.
 *
 * @param whole whole units to share, may be negative
 * @param weights not negative, at least one above nought
 * @returns whole parts in the order of the weights, summing to `whole`
 * @throws OutOfRange when there is no weight, a weight is negative, or all are nought
 * @see Balinski & Young, Fair Representation (1982), the method of Hamilton
 */
export const shareByLargestRemainder = (whole: number, weights: readonly Decimal[]): number[] => {
  const total = weights.reduce((sum, weight) => sum.plus(weight), new Decimal(0));
  if (
    weights.some((weight) => weight.isNegative() && !weight.isZero()) ||
    !total.isPositive() ||
    total.isZero()
  ) {
    throw new OutOfRange(
      'Nothing to share by: the weights must not be negative, and one must be above nought.',
    );
  }
  const sign = whole < 0 ? -1 : 1;
  const exact = weights.map((weight) => new Decimal(Math.abs(whole)).times(weight).div(total));
  const parts = exact.map((share) => share.floor().toNumber());
  const left = Math.abs(whole) - parts.reduce((sum, part) => sum + part, 0);
  const byFraction = exact
    .map((share, index) => ({ index, fraction: share.minus(share.floor()) }))
    .sort((a, b) => b.fraction.comparedTo(a.fraction) || a.index - b.index);
  for (const { index } of byFraction.slice(0, left)) parts[index] = (parts[index] ?? 0) + 1;
  return parts.map((part) => (part === 0 ? 0 : sign * part));
};
