import { Decimal } from '../kernel/decimal.js';
import { OutOfRange } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import type { Share } from '../kernel/share.js';

const mustBeMargin = (margin: Share): Share => {
  if (margin.lt(0) || margin.gte(1)) {
    throw new OutOfRange('A margin is a share of the price: from 0 up to, not including, 1 (100 %).');
  }
  return margin;
};

const mustBeMarkup = (markup: Share): Share => {
  if (markup.lt(0)) throw new OutOfRange('A markup is a share of the cost and cannot be below 0.');
  return markup;
};

/**
 * The price before tax that leaves the margin the studio asked for: price = cost / (1 − margin).
 *
 * Margin is a share of the price, not of the cost: 40 % of margin on 600.00 is 1,000.00; 40 % of markup would be 840.00.
 *
 * @param cost full cost, not negative
 * @param margin 0 up to, not including, 1
 * @returns the price, rounded up to the next minor unit, so that rounding never eats the margin
 * @throws OutOfRange if margin is negative or reaches 1
 * @see test/reference/pricing/margin.test.ts
 */
export const priceFromMargin = (cost: Money, margin: Share): Money =>
  Money.roundedUp(
    cost
      .toDecimal()
      .div(new Decimal(1).minus(mustBeMargin(margin)))
      .toDecimalPlaces(20),
    cost.currency,
  );

/**
 * The price before tax that adds the markup to the cost: price = cost × (1 + markup).
 *
 * @param cost full or variable cost, not negative
 * @param markup share of the cost, not negative: 0.30 is 30 %
 * @returns the price, rounded up to the next minor unit
 * @throws OutOfRange if markup is negative
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), cost-plus pricing; test/reference/pricing/margin.test.ts
 */
export const priceFromMarkup = (cost: Money, markup: Share): Money =>
  Money.roundedUp(cost.toDecimal().times(mustBeMarkup(markup).plus(1)), cost.currency);

/**
 * The markup on cost that gives the same price as a margin: m = g / (1 − g).
 *
 * @param margin 0 up to, not including, 1
 * @returns a share of the cost, unrounded: a margin of 0.20 is a markup of 0.25
 * @throws OutOfRange if margin is negative or reaches 1
 * @see test/reference/pricing/margin.test.ts
 */
export const markupOfMargin = (margin: Share): Share =>
  mustBeMargin(margin).div(new Decimal(1).minus(margin));

/**
 * The margin on price that a markup gives: g = m / (1 + m).
 *
 * @param markup share of the cost, not negative
 * @returns a share of the price, unrounded: a markup of 0.25 is a margin of 0.20
 * @throws OutOfRange if markup is negative
 * @see test/reference/pricing/margin.test.ts
 */
export const marginOfMarkup = (markup: Share): Share => mustBeMarkup(markup).div(markup.plus(1));

/** What a price leaves beside its cost. `margin` is null at a price of nought, `markup` at a cost of nought. */
export type Profit = { readonly profit: Money; readonly margin: Share | null; readonly markup: Share | null };

/**
 * What a price leaves: profit = price − cost, margin = profit / price, markup = profit / cost.
 *
 * @param price net of tax
 * @param cost at book cost
 * @returns profit exact; shares unrounded, negative for a loss
 * @see test/reference/pricing/margin.test.ts
 */
export const profitOf = (price: Money, cost: Money): Profit => {
  const profit = price.minus(cost);
  return {
    profit,
    margin: price.isZero() ? null : profit.toDecimal().div(price.toDecimal()),
    markup: cost.isZero() ? null : profit.toDecimal().div(cost.toDecimal()),
  };
};
