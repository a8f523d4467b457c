import type { Decimal } from '../kernel/decimal.js';
import { OutOfRange } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import type { Share } from '../kernel/share.js';

/** A garment sold again and again: its price, and what each one costs beyond rent and other fixed cost. */
export type Repeated = { readonly price: Money; readonly variableCost: Money };

/** What one more garment contributes to rent and profit: price − variable cost. */
export const contribution = (garment: Repeated): Money => garment.price.minus(garment.variableCost);

/**
 * The contribution as a share of the price.
 *
 * @returns unrounded share: 0.8 for a price of 100 and a variable cost of 20
 * @throws OutOfRange at a price of nought
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), chapter 3
 */
export const contributionShare = (garment: Repeated): Share => {
  if (garment.price.isZero()) throw new OutOfRange('At a price of 0 there is no share to speak of.');
  return contribution(garment).toDecimal().div(garment.price.toDecimal());
};

/**
 * How many such garments pay the rent, or pay it and leave a profit: (fixed cost + profit wanted) / contribution.
 *
 * @param fixedCost rent and everything that is there without a single garment, not negative
 * @param profitWanted profit to be left; nought for break-even
 * @returns units, unrounded; round up for whole garments
 * @throws OutOfRange when a garment contributes nothing, so that no number of them would do
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), chapter 3; test/reference/pricing/cost-volume-profit.test.ts
 */
export const unitsToEarn = (fixedCost: Money, garment: Repeated, profitWanted?: Money): Decimal => {
  const each = contribution(garment);
  if (each.minor <= 0) {
    throw new OutOfRange('Each of these costs as much as it brings: no number of them pays the rent.');
  }
  const wanted = profitWanted ? fixedCost.plus(profitWanted) : fixedCost;
  return wanted.toDecimal().div(each.toDecimal());
};

/** Sales of so many units: price × units, rounded half away from zero. */
export const salesOf = (garment: Repeated, units: Decimal): Money => garment.price.timesRounded(units);

/**
 * The profit at so many units: contribution × units − fixed cost.
 *
 * @returns profit, rounded half away from zero; negative for a loss
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), chapter 3; test/reference/pricing/cost-volume-profit.test.ts
 */
export const profitAt = (fixedCost: Money, garment: Repeated, units: Decimal): Money =>
  contribution(garment).timesRounded(units).minus(fixedCost);

/**
 * What one set of a mix contributes: Σ count × contribution, such as one coat to two waistcoats.
 *
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), chapter 3; test/reference/pricing/cost-volume-profit.test.ts
 */
export const mixContribution = (
  currency: string,
  mix: readonly { readonly garment: Repeated; readonly count: Decimal }[],
): Money =>
  Money.sum(
    mix.map(({ garment, count }) => contribution(garment).timesRounded(count)),
    currency,
  );

/**
 * How strongly profit follows sales: contribution / profit. Sales 10 % up move the profit by this many times 10 %.
 *
 * @param allContribution contribution of everything sold
 * @param profit what is left after fixed cost
 * @returns unrounded factor; null at a profit of nought
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), chapter 3; test/reference/pricing/cost-volume-profit.test.ts
 */
export const operatingLeverage = (allContribution: Money, profit: Money): Decimal | null =>
  profit.isZero() ? null : allContribution.toDecimal().div(profit.toDecimal());
