import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';
import { grossFactor, netForGross, settleTo } from './gross-kept.js';
import { countedOf, groupName, rateOf, taxGroups } from './tax-groups.js';
import type { NetAmount, NetLine, TaxedLine, TaxQuestion } from './tax-question.js';

const PRICE_DECIMALS = 12;

/**
 * The net price that gives the line's net back: (net + allowances − charges) × base quantity ÷ quantity.
 *
 * Twelve decimals, so that quantity × price still rounds to the net for any quantity a workroom writes.
 */
const netPrice = (product: Money, line: TaxedLine): Decimal =>
  line.quantity.isZero()
    ? line.price.div(grossFactor(line)).toDecimalPlaces(PRICE_DECIMALS)
    : product
        .toDecimal()
        .times(line.baseQuantity ?? 1)
        .div(line.quantity)
        .abs()
        .toDecimalPlaces(PRICE_DECIMALS);

/** Turns one line whose amounts hold tax into net amounts, its net given. */
const netLine = (line: TaxedLine, net: Money): NetLine => {
  const netOf = (amount: Money): Money => amount.timesRounded(new Decimal(1).div(grossFactor(line)));
  const allowances = (line.allowances ?? []).map(netOf);
  const charges = (line.charges ?? []).map(netOf);
  const product = net.plus(Money.sum(allowances, net.currency)).minus(Money.sum(charges, net.currency));
  // A cent of settling can leave a product whose sign no price can give; then the price is nought and a charge or
  // an allowance carries the cent.
  const fits = product.isZero() || product.isNegative() === line.quantity.isNegative();
  if (fits && !(line.quantity.isZero() && !product.isZero()))
    return { net, price: netPrice(product, line), allowances, charges };
  const carried = product.isNegative()
    ? { allowances: [...allowances, product.negated()], charges }
    : { allowances, charges: [...charges, product] };
  return { net, price: new Decimal(0), ...carried };
};

/**
 * Nets of a question whose amounts are kept with tax, group by group: the group's net is the whole net nearest to its
 * promised gross, and its lines, allowances and charges add up to it exactly.
 *
 * @param question discount already among its allowances
 * @param amounts the lines' gross amounts, allowances and charges of the line included
 * @param given how many of the allowances were asked for (the rest come out of the spread discount)
 * @returns net lines, allowances and charges, and Σ of what was promised with tax
 * @see test/domain/papers/gross-kept.test.ts
 */
export const netOfGrossKept = (
  question: TaxQuestion,
  amounts: readonly Money[],
  given: number,
): {
  lines: NetLine[];
  allowances: NetAmount[];
  charges: NetAmount[];
  promised: Money;
} => {
  const { currency } = question;
  const asked = { allowances: question.allowances ?? [], charges: question.charges ?? [] };
  const counted = countedOf(question, amounts);
  const nets: Money[] = counted.map(() => Money.zero(currency));
  for (const group of taxGroups(counted, currency)) {
    const mine = counted
      .map((each, index) => ({ each, index }))
      .filter(({ each }) => groupName(each) === groupName(group));
    const base = netForGross(group.base, group, question.grossPolicy ?? 'rounding');
    const parts = settleTo(
      mine.map(({ each }) => each.amount.toDecimal().div(grossFactor(each))),
      base,
    );
    mine.forEach(({ index }, at) => {
      nets[index] = parts[at] ?? Money.zero(currency);
    });
  }
  const netAt = (index: number): Money => nets[index] ?? Money.zero(currency);
  const first = question.lines.length;
  const second = first + asked.allowances.length;
  return {
    lines: question.lines.map((line, index) => netLine(line, netAt(index))),
    allowances: asked.allowances.map((each, index) => ({
      ...each,
      rate: rateOf(each),
      amount: netAt(first + index).negated(),
      spread: index >= given,
    })),
    charges: asked.charges.map((each, index) => ({
      ...each,
      rate: rateOf(each),
      amount: netAt(second + index),
      spread: false,
    })),
    promised: Money.sum(
      counted.map((each) => each.amount),
      currency,
    ),
  };
};
