import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';

/** One delivery of a material, with what is left of it and the value that is left with it. */
export type StockLot = {
  readonly lot: string;
  readonly quantity: Decimal;
  readonly value: Money;
};

/** So much taken from one lot, at the cost it carried. */
export type Taken = { readonly lot: string; readonly quantity: Decimal; readonly cost: Money };

/**
 * Takes a quantity out of a lot at the cost it carries: value × taken / left, the last of it taking the remainder.
 *
 * @param lot quantity above 0
 * @param quantity above 0, not more than the lot holds
 * @returns what was taken and the lot after it; cost rounded half away from zero, so that taken + left is the value
 * @see test/properties/stock.test.ts
 */
export const takeFrom = (
  lot: StockLot,
  quantity: Decimal,
): { readonly taken: Taken; readonly left: StockLot } => {
  const cost = quantity.eq(lot.quantity)
    ? lot.value
    : Money.rounded(lot.value.toDecimal().times(quantity).div(lot.quantity), lot.value.currency);
  return {
    taken: { lot: lot.lot, quantity, cost },
    left: { lot: lot.lot, quantity: lot.quantity.minus(quantity), value: lot.value.minus(cost) },
  };
};

/** Puts back what was taken, at the cost it left with. */
export const putBack = (lot: StockLot, taken: Taken): StockLot => ({
  lot: lot.lot,
  quantity: lot.quantity.plus(taken.quantity),
  value: lot.value.plus(taken.cost),
});

/** The quantity of several lots together. */
export const quantityOf = (lots: Iterable<StockLot | Taken>): Decimal => {
  let total = new Decimal(0);
  for (const lot of lots) total = total.plus(lot.quantity);
  return total;
};
