import type { CostSheet } from '../costing/cost-lines.js';
import { drawUpCostSheet, wholeLabour } from '../costing/cost-sheet.js';
import { roundOnce } from '../costing/round-once.js';
import { Decimal } from '../kernel/decimal.js';
import { hoursOf } from '../kernel/minutes.js';
import { Money } from '../kernel/money.js';
import { mustBePriceable } from './check-price-input.js';
import { profitOf } from './margin.js';
import { netPrice, setByHand } from './net-price.js';
import type { ChanceOfLoss, PriceAnswer, PriceInput } from './price-terms.js';

/**
 * What the bench hour earns at a price: (profit + labour) / hours.
 *
 * @param profit price − cost, negative for a loss
 * @param labour labour in the cost
 * @param minutes minutes the cost was worked out for
 * @returns money an hour, rounded half away from zero; null at no minutes
 * @see test/domain/pricing/work-out-price.test.ts
 */
export const earnedPerHour = (profit: Money, labour: Money, minutes: Decimal): Money | null =>
  minutes.isZero() ? null : roundOnce(profit.plus(labour).toDecimal().div(hoursOf(minutes)), profit.currency);

/** Priced minutes + what the profit buys at the average cost of a minute; null when a minute costs nothing. */
const minutesUntilNothingIsLeft = (sheet: CostSheet, profit: Money): Decimal | null => {
  const { priced } = sheet.minutes;
  const ofMaterials = sheet.parts.pools
    .filter((pool) => pool.base === 'material-cost')
    .map((pool) => pool.amount);
  const time = sheet.cost
    .minus(sheet.materials)
    .minus(sheet.expenses)
    .minus(Money.sum(ofMaterials, sheet.currency));
  if (priced.isZero() || time.minor <= 0) return null;
  return Decimal.max(0, priced.plus(profit.toDecimal().times(priced).div(time.toDecimal())));
};

const chanceAt = (
  chance: ChanceOfLoss | undefined,
  breakEven: Decimal | null,
  mending: Decimal,
): number | null => {
  if (typeof chance !== 'function') return chance ?? null;
  return breakEven ? chance(Decimal.max(0, breakEven.minus(mending))) : null;
};

/**
 * What to charge for one garment, with the cost sheet behind it.
 *
 * (cost + stash uplift) with margin or markup → + handling → + rush → not below the minimum → − discount → up to the
 * rounding step = net → tax. Profit, margin and markup are reported against book cost; the lowest price that pays the
 * wage is the cost.
 *
 * @param input rates in major units an hour, minutes, quantities and shares not negative; margin below 1; tax rate a
 *   percentage from 0 to 100
 * @returns cost sheet, price with its steps, what is kept back, and the chance of a loss as given; each line of money
 *   rounded once half away from zero, only the final price rounded up
 * @throws Invalid naming every field that cannot be meant; OutOfRange when an amount is too large to keep exactly
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), cost-plus pricing; test/reference/pricing/;
 *   test/domain/pricing/work-out-price.test.ts
 */
export const workOutPrice = (input: PriceInput): PriceAnswer => {
  mustBePriceable(input);
  const sheet = drawUpCostSheet(input);
  const terms = input.pricing ?? {};
  const taxShare = (input.tax?.rate ?? new Decimal(0)).div(100);
  const workedOut = netPrice(sheet, terms, taxShare, input.pricesInclude ?? 'none');
  const priced = input.ownNet ? setByHand(workedOut, input.ownNet, taxShare) : workedOut;
  const left = profitOf(priced.net, sheet.cost);
  const breakEvenMinutes = minutesUntilNothingIsLeft(sheet, left.profit);
  return {
    minutes: sheet.minutes,
    costSheet: sheet,
    price: {
      net: priced.net,
      tax: priced.gross.minus(priced.net),
      gross: priced.gross,
      ...left,
      earnedPerHour: earnedPerHour(left.profit, wholeLabour(sheet), sheet.minutes.priced),
      lowestThatPaysTheWage: sheet.cost,
      stashUplift: sheet.stashUplift,
      handling: priced.handling,
      rush: priced.rush,
      discount: terms.discount ?? Money.zero(input.currency),
      minimumApplied: priced.minimumApplied,
      steps: priced.steps,
      breakEvenMinutes,
    },
    keptBack: { minutes: sheet.keptBack.minutes, money: sheet.keptBack.money },
    chanceOfLoss: chanceAt(input.chanceOfLoss, breakEvenMinutes, sheet.mending.minutes),
  };
};
