import type { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';

/**
 * The rate a pool charges before the year is over: budget / budgeted base.
 *
 * @param budget overhead expected in the year
 * @param budgetedBase hours, or money of labour or material, expected in the year; above 0
 * @returns money per unit of the base, unrounded: 250,000 over 100,000 of labour cost is 2.5
 * @throws Invalid when the base is not above 0
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), section 4.4; test/reference/costing/job-costing.test.ts
 */
export const predeterminedRate = (budget: Money, budgetedBase: Decimal): Decimal => {
  if (budgetedBase.lte(0)) throw Invalid.field('budgetedBase', 'The base a pool goes by must be above 0.');
  return budget.toDecimal().div(budgetedBase);
};

/** Overhead taken up by work done: rate × base, rounded half away from zero. */
export const absorbed = (rate: Decimal, base: Decimal, currency: string): Money =>
  Money.rounded(rate.times(base), currency);

export type Absorption = {
  readonly incurred: Money;
  readonly absorbed: Money;
  /** absorbed − incurred: positive over-absorbed, negative under-absorbed. */
  readonly difference: Money;
  readonly verdict: 'over-absorbed' | 'under-absorbed' | 'even';
  /** The rate that would have taken up all of it, unrounded; null before any of the base was worked. */
  readonly trueRate: Decimal | null;
};

/**
 * Has the work taken up what the workroom costs? Absorbed = rate × actual base, against overhead incurred.
 *
 * @param rate predetermined rate
 * @param base actual base so far, not negative
 * @param incurred overhead really spent so far
 * @returns both sides, their difference, and the rate that would have been right
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), section 4.6; test/reference/costing/job-costing.test.ts
 */
export const absorptionOf = (rate: Decimal, base: Decimal, incurred: Money): Absorption => {
  const taken = absorbed(rate, base, incurred.currency);
  const difference = taken.minus(incurred);
  const sign = Math.sign(difference.minor);
  return {
    incurred,
    absorbed: taken,
    difference,
    verdict: sign > 0 ? 'over-absorbed' : sign < 0 ? 'under-absorbed' : 'even',
    trueRate: base.isZero() ? null : incurred.toDecimal().div(base),
  };
};

/**
 * What overhead should cost at another volume: fixed + variable rate × base.
 *
 * @param fixed overhead that stays whatever is made
 * @param variableRate money per unit of the base
 * @param base volume to allow for, not negative
 * @returns allowed overhead, rounded half away from zero
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), section 8.4; test/reference/costing/variances.test.ts VAR-13
 */
export const overheadAllowed = (fixed: Money, variableRate: Decimal, base: Decimal): Money =>
  fixed.plus(absorbed(variableRate, base, fixed.currency));
