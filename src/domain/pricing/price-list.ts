import { Decimal } from '../kernel/decimal.js';
import { OutOfRange } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';

/** One line of a house price list: counter work, an alteration, make-and-trim for a client's own cloth. */
export type StandingPrice = {
  /** hours × rate + trimmings, before the minimum charge. */
  readonly worked: Money;
  readonly price: Money;
  readonly minimumApplied: boolean;
};

/**
 * A standing price: hours × rate + trimmings, not below the minimum charge, up to the rounding step.
 *
 * @param work hours as a decimal, money an hour in major units; trimmings, minimum charge and step are optional amounts
 * @returns the worked sum rounded half away from zero, and the price, up to the step (the minor unit when left out)
 * @throws OutOfRange when hours or rate are negative, or the step is not above 0
 * @see test/reference/costing/worked-sums.test.ts WS-4, WS-17
 */
export const standingPrice = (work: {
  readonly currency: string;
  readonly hours: Decimal;
  readonly perHour: Decimal;
  readonly trimmings?: Money;
  readonly minimumCharge?: Money;
  readonly roundTo?: Money;
}): StandingPrice => {
  const { currency } = work;
  if (work.hours.lt(0) || work.perHour.lt(0)) throw new OutOfRange('Hours and rate cannot be below 0.');
  if (work.roundTo && work.roundTo.minor <= 0) throw new OutOfRange('The rounding step must be above 0.');
  const sum = work.hours.times(work.perHour).plus(work.trimmings?.toDecimal() ?? 0);
  const least = work.minimumCharge?.toDecimal() ?? new Decimal(0);
  const step = (work.roundTo ?? Money.ofMinor(1, currency)).toDecimal();
  return {
    worked: Money.rounded(sum, currency),
    price: Money.rounded(Decimal.max(sum, least).div(step).toDecimalPlaces(20).ceil().times(step), currency),
    minimumApplied: sum.lt(least),
  };
};
