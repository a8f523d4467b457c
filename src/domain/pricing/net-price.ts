import type { CostSheet } from '../costing/cost-lines.js';
import { wholeLabour } from '../costing/cost-sheet.js';
import { roundOnce } from '../costing/round-once.js';
import { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import type { PriceStep, PricingTerms } from './price-terms.js';

export type NetPrice = {
  readonly net: Money;
  readonly gross: Money;
  readonly handling: Money;
  readonly rush: Money;
  readonly minimumApplied: boolean;
  readonly steps: readonly PriceStep[];
};

/** Digits beyond this are the residue of a division, not of the price, and must not lift it by a step. */
const RESIDUE = 20;

const upToStep = (amount: Decimal, step: Money): Money => {
  const size = step.toDecimal();
  return roundOnce(
    amount.toDecimalPlaces(RESIDUE).div(size).toDecimalPlaces(RESIDUE).ceil().times(size),
    step.currency,
  );
};

const withProfit = (charged: Decimal, terms: PricingTerms): Decimal =>
  terms.margin
    ? charged.div(new Decimal(1).minus(terms.margin))
    : charged.times(new Decimal(1).plus(terms.markup ?? 0));

const handlingOf = (sheet: CostSheet, share: Decimal): Decimal =>
  sheet.parts.materials
    .filter((line) => line.handling)
    .reduce((sum, line) => sum.plus(line.charged.toDecimal()), new Decimal(0))
    .times(share);

/**
 * From a cost sheet to the price before and with tax: (cost + stash uplift) with margin or markup, + handling, + rush,
 * not below the minimum charge, − discount, up to the rounding step.
 *
 * Where prices are kept with tax, minimum, discount and step are amounts with tax: the gross price goes up to the step
 * and the net price is what is in it, rounded half away from zero.
 *
 * @param sheet the cost sheet, at book cost
 * @param terms checked terms of the studio
 * @param taxShare tax as a share of the net price: 0.21
 * @param include do minimum, discount and step include tax?
 * @returns net price, gross price, and the steps, which add up to the net price exactly
 * @throws Invalid when the discount is more than the price
 * @see test/domain/pricing/work-out-price.test.ts
 */
export const netPrice = (
  sheet: CostSheet,
  terms: PricingTerms,
  taxShare: Decimal,
  include: 'none' | 'tax',
): NetPrice => {
  const { currency } = sheet;
  const onNet = include === 'tax' ? taxShare.plus(1) : new Decimal(1);
  const asNet = (amount: Money | undefined) => (amount?.toDecimal() ?? new Decimal(0)).div(onNet);

  const charged = sheet.cost.plus(sheet.stashUplift).toDecimal();
  const withMargin = withProfit(charged, terms);
  const handling = handlingOf(sheet, terms.handlingShare ?? new Decimal(0));
  const handled = withMargin.plus(handling);
  const rushed = terms.rushOn === 'price' ? handled : wholeLabour(sheet).toDecimal();
  const rush = rushed.times(terms.rushShare ?? 0);
  const running = handled.plus(rush);
  const least = Decimal.max(running, asNet(terms.minimumCharge));
  const left = least.minus(asNet(terms.discount));
  if (left.toDecimalPlaces(RESIDUE).lt(0)) {
    throw Invalid.field('pricing.discount', 'The discount is more than the price. Make it smaller.');
  }

  const step = terms.roundTo ?? Money.ofMinor(1, currency);
  const stepped = upToStep(left.times(onNet), step);
  const net = include === 'tax' ? roundOnce(stepped.toDecimal().div(onNet), currency) : stepped;
  const gross = include === 'tax' ? stepped : net.plus(roundOnce(net.toDecimal().times(taxShare), currency));

  const round = (amount: Decimal) => roundOnce(amount, currency);
  const named: PriceStep[] = [
    { kind: 'cost', amount: sheet.cost },
    { kind: 'stash-uplift', amount: sheet.stashUplift },
    { kind: 'margin', amount: round(withMargin.minus(charged)) },
    { kind: 'handling', amount: round(handling) },
    { kind: 'rush', amount: round(rush) },
    { kind: 'minimum', amount: round(least.minus(running)) },
    { kind: 'discount', amount: round(left.minus(least)) },
  ];
  const soFar = Money.sum(
    named.map((each) => each.amount),
    currency,
  );
  return {
    net,
    gross,
    handling: round(handling),
    rush: round(rush),
    minimumApplied: least.gt(running),
    steps: [...named, { kind: 'rounding', amount: net.minus(soFar) }],
  };
};

/**
 * The maker's own price before tax in the place of the worked-out one; the difference is a step of its own.
 *
 * @param own price before tax, not negative
 * @param taxShare tax as a share of the net price
 * @throws Invalid when it is negative
 * @see test/domain/commissions/garment-sum.test.ts
 */
export const setByHand = (workedOut: NetPrice, own: Money, taxShare: Decimal): NetPrice => {
  if (own.isNegative())
    throw Invalid.field('ownNet', 'A price is not negative. Leave it empty to let the sum say it.');
  return {
    ...workedOut,
    net: own,
    gross: own.plus(roundOnce(own.toDecimal().times(taxShare), own.currency)),
    minimumApplied: false,
    steps: [...workedOut.steps, { kind: 'set-by-hand', amount: own.minus(workedOut.net) }],
  };
};
