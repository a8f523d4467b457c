import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';

/** So much of one lot that went back, and the price of one on the supplier's paper. */
export type WentBack = { readonly unitPrice: Decimal; readonly quantity: Decimal };

/** What a delivery came to, by its parts. */
export type BilledWith = {
  readonly goods: Money;
  readonly freight: Money;
  readonly duty: Money;
  readonly tax: Money;
};

/**
 * What a supplier owes the studio for goods sent back: their price and the tax that was charged on it.
 *
 * credit = goods back + tax × goods back / (goods + freight + duty), where goods back = Σ unit price × quantity. Tax lies on
 * freight and duty as it lies on goods; these two are not credited, nor is their tax.
 *
 * @param back each quantity in the material's unit, above 0; unit prices in major units, not negative
 * @param billed the delivery they came with, each amount not negative
 * @returns money, not negative, rounded once, half away from nought
 * @see VAT Directive 2006/112/EC art. 78: duties and transport charged by the supplier are part of what is taxed (from
 *   memory; local law decides); test/domain/money-out/supplier-credit.test.ts
 */
export const supplierCredit = (
  back: readonly WentBack[],
  { goods, freight, duty, tax }: BilledWith,
): Money => {
  const value = back.reduce(
    (sum, { unitPrice, quantity }) => sum.plus(unitPrice.times(quantity)),
    new Decimal(0),
  );
  const taxed = goods.plus(freight).plus(duty);
  const ownTax = taxed.isZero() ? value.times(0) : tax.toDecimal().times(value).div(taxed.toDecimal());
  return Money.rounded(value.plus(ownTax), tax.currency);
};

/** Somebody and an amount owed to them; below nought, owed by them. */
export type OwedTo = { readonly toId: string; readonly to: string; readonly amount: Money };

/**
 * What is owed to each, credits taken off.
 *
 * @param owed lines of one currency, below nought where it is a credit
 * @returns one line for each `toId`, in the order they come first; below nought where credits are more; exact
 * @see test/domain/money-out/supplier-credit.test.ts
 */
export const owedInAll = (owed: readonly OwedTo[]): OwedTo[] => {
  const totals = new Map<string, OwedTo>();
  for (const { toId, to, amount } of owed) {
    const before = totals.get(toId);
    totals.set(toId, { toId, to, amount: before ? before.amount.plus(amount) : amount });
  }
  return [...totals.values()];
};
