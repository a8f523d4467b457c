import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';

/** A price taken apart as far as a comparison needs it. */
export type PriceParts = {
  /** Price before tax. */
  readonly net: Money;
  /** What the priced minutes cost: labour, machine and overhead. */
  readonly time: Money;
  /** Priced minutes. */
  readonly minutes: Decimal;
  /** Materials at the value they are charged at. */
  readonly materials: Money;
  readonly expenses: Money;
};

/** Why a price is another today; the parts add up to `whole` exactly. */
export type PriceDifference = {
  /** More or fewer hours, at the earlier rates. */
  readonly hours: Money;
  /** Dearer or cheaper hours, for today's hours. */
  readonly rates: Money;
  readonly materials: Money;
  readonly expenses: Money;
  /** What stands on top of the cost: margin, handling, rush, minimum, rounding, a price set by hand. */
  readonly onTop: Money;
  readonly whole: Money;
};

/**
 * The difference between an earlier price and today's, by cause.
 *
 * hours = round(earlier time × minutes now ÷ minutes then) − earlier time; rates = time now − time then − hours; materials
 * and expenses are differences; what is on top of the cost is what remains, so that the causes add up exactly. With no
 * minutes then, all of today's time counts as hours.
 *
 * @returns whole minor units, positive where today is dearer
 * @see 2-costing's efficiency and rate variances, with the sign of a buyer; test/domain/papers/quote-difference.test.ts
 */
export const differenceByCause = (then: PriceParts, now: PriceParts): PriceDifference => {
  const whole = now.net.minus(then.net);
  const atEarlierRates = then.minutes.isZero()
    ? now.time
    : then.time.timesRounded(now.minutes.div(then.minutes));
  const hours = atEarlierRates.minus(then.time);
  const rates = now.time.minus(atEarlierRates);
  const materials = now.materials.minus(then.materials);
  const expenses = now.expenses.minus(then.expenses);
  const onTop = whole.minus(Money.sum([hours, rates, materials, expenses], whole.currency));
  return { hours, rates, materials, expenses, onTop, whole };
};

/** A price of nothing: for a garment that was not there. */
export const noParts = (currency: string): PriceParts => {
  const zero = Money.zero(currency);
  return { net: zero, time: zero, minutes: new Decimal(0), materials: zero, expenses: zero };
};
