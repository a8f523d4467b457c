import { splitVariances } from '../costing/variance-lines.js';
import type { CurrencyCode } from '../kernel/currency.js';
import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';

/** What one planned line, or one material nobody planned, has come to. Quantities in one unit. */
export type SpendFacts = {
  readonly name: string;
  /** With its waste; 0 when nobody planned it. */
  readonly planned: Decimal;
  /** Major units for one. */
  readonly plannedUnitCost: Decimal;
  /** Bought for this line: quantity and landed cost. */
  readonly bought: { readonly quantity: Decimal; readonly cost: Money };
  /** Promised to the garment and not yet issued. */
  readonly reserved: Decimal;
  readonly issued: { readonly quantity: Decimal; readonly cost: Money };
  /** Returned, and offcuts kept. */
  readonly returned: { readonly quantity: Decimal; readonly cost: Money };
  readonly wasted: { readonly quantity: Decimal; readonly cost: Money };
};

export type Spend = SpendFacts & {
  /** Issued − returned + wasted. */
  readonly used: Decimal;
  readonly usedCost: Money;
  /** Planned − used, not below 0: still to be issued. */
  readonly toIssue: Decimal;
  readonly plannedCost: Money;
  /** Favourable positive; by what was used, or by what was bought while nothing is used. */
  readonly priceVariance: Money;
  /** Favourable positive; none while nothing is used. */
  readonly usageVariance: Money | undefined;
};

/**
 * Planned against actual for one material: price variance R(a·rp) − R(a·ra) and usage variance R(p·rp) − R(a·rp), where a
 * is the quantity used, at its book cost.
 *
 * While nothing is used yet, the price is compared on what was bought for the line. A material nobody planned has no
 * planned price: all of it is usage.
 *
 * @returns money rounded half away from zero, favourable positive
 * @see test/reference/stock/spend.test.ts WS-10; Principles of Accounting, Vol. 2 (OpenStax, 2019), section 8.2
 */
export const spendOf = (facts: SpendFacts, currency: CurrencyCode): Spend => {
  const used = facts.issued.quantity.minus(facts.returned.quantity).plus(facts.wasted.quantity);
  const usedCost = facts.issued.cost.minus(facts.returned.cost).plus(facts.wasted.cost);
  const isPlanned = facts.planned.gt(0);
  const split = (planned: Decimal, quantity: Decimal, cost: Money) => {
    const [one] = splitVariances(
      isPlanned ? [{ name: facts.name, quantity: planned, rate: facts.plannedUnitCost }] : [],
      [{ name: facts.name, quantity, amount: cost }],
      currency,
    );
    return one;
  };
  const zero = Money.zero(currency);
  const begun = !used.isZero() || !usedCost.isZero();
  const ofUse = begun ? split(facts.planned, used, usedCost) : undefined;
  const ofBuying =
    isPlanned && facts.bought.quantity.gt(0)
      ? split(facts.bought.quantity, facts.bought.quantity, facts.bought.cost)
      : undefined;
  return {
    ...facts,
    used,
    usedCost,
    toIssue: Decimal.max(0, facts.planned.minus(used)),
    plannedCost: Money.rounded(facts.planned.times(facts.plannedUnitCost), currency),
    priceVariance: (begun ? ofUse?.rate : ofBuying?.rate) ?? zero,
    usageVariance: ofUse?.usage,
  };
};
