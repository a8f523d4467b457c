import { type CalendarDate, daysBetween } from '../kernel/calendar-date.js';
import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';
import { type Absorption, absorptionOf } from './overhead-rate.js';
import { overheadPools, type RateCard } from './rate-card.js';
import { rateOn } from './rate-on.js';

/** Where overhead stands within a year. */
export type OverheadStanding = Pick<Absorption, 'incurred' | 'absorbed' | 'difference' | 'verdict'> & {
  /** What the cards' budgets come to for the days that have gone. */
  readonly budgeted: Money;
  /** budgeted − incurred: below nought where more was spent than budgeted. */
  readonly spending: Money;
  /** absorbed − budgeted: below nought where fewer hours (or less of another base) went into garments than budgeted. */
  readonly volume: Money;
  /** incurred / absorbed: what every rate would have had to be multiplied by, unrounded; null before anything was absorbed. */
  readonly factor: Decimal | null;
  readonly hours: Decimal;
  /** absorbed / hours worked on garments, rounded; null at no hours. */
  readonly absorbedPerHour: Money | null;
  /** incurred / hours worked on garments, rounded: what an hour would have had to carry; null at no hours. */
  readonly neededPerHour: Money | null;
};

/**
 * Has the work so far taken up what the workroom costs, why not, and what does it mean for the rate?
 *
 * difference = absorbed − incurred = spending + volume, where spending = budgeted − incurred and volume = absorbed − budgeted.
 *
 * @param sums.incurred overhead really spent so far
 * @param sums.absorbed Σ pools: base worked so far × predetermined rate of its day
 * @param sums.budgeted overhead budgeted for the same days, see `budgetedOverhead`
 * @param sums.hours hours that went into garments, not negative
 * @returns money exact; the figures of an hour rounded half away from zero; the factor unrounded
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), sections 4.6 and 8.4;
 * test/reference/costing/overhead-standing.test.ts JC-10, JC-11, JC-30, JC-32, JC-34
 */
export const overheadStanding = (sums: {
  readonly incurred: Money;
  readonly absorbed: Money;
  readonly budgeted: Money;
  readonly hours: Decimal;
}): OverheadStanding => {
  const { incurred, absorbed, budgeted, hours } = sums;
  // The whole as one base at a rate of 1: verdict and sign are those of a single pool.
  const { difference, verdict } = absorptionOf(new Decimal(1), absorbed.toDecimal(), incurred);
  const anHour = (amount: Money): Money | null =>
    hours.isZero() ? null : Money.rounded(amount.toDecimal().div(hours), amount.currency);
  return {
    incurred,
    absorbed,
    difference,
    verdict,
    budgeted,
    spending: budgeted.minus(incurred),
    volume: absorbed.minus(budgeted),
    factor: absorbed.isZero() ? null : incurred.toDecimal().div(absorbed.toDecimal()),
    hours,
    absorbedPerHour: anHour(absorbed),
    neededPerHour: anHour(incurred),
  };
};

/**
 * What the cards budget for the days of a span: each day a 365th (in a leap year a 366th) of the yearly budget of the card
 * that holds on it.
 *
 * @param cards in any order; days before the first count nothing
 * @param from first day
 * @param to last day, of the same year, not before `from`
 * @returns money rounded once, half away from zero
 * @see test/domain/rates/overhead-standing.test.ts
 */
export const budgetedOverhead = (
  cards: readonly RateCard[],
  from: CalendarDate,
  to: CalendarDate,
  currency: string,
): Money => {
  const year = from.slice(0, 4);
  const daysOfYear = daysBetween(`${year}-01-01`, `${year}-12-31`) + 1;
  const begins = [from, ...cards.map((card) => card.from)].filter((day) => day >= from && day <= to);
  const turns = [...new Set(begins)].toSorted();
  const total = turns.reduce((sum, begin, place) => {
    const next = turns[place + 1];
    const days = next ? daysBetween(begin, next) : daysBetween(begin, to) + 1;
    const card = rateOn(cards, begin);
    const budget = card
      ? Money.sum(
          overheadPools(card.workings).map((pool) => pool.budget),
          currency,
        )
      : undefined;
    return budget ? sum.plus(budget.toDecimal().times(days).div(daysOfYear)) : sum;
  }, new Decimal(0));
  return Money.rounded(total, currency);
};
