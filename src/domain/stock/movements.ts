import type { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';
import type { Money } from '../kernel/money.js';

/** How an issue is costed: the very piece, first in first out, or the moving average. */
export const STOCK_METHODS = ['lot', 'first-in-first-out', 'weighted-average'] as const;
export type StockMethod = (typeof STOCK_METHODS)[number];

/**
 * What happens to one material, in the order it happened.
 *
 * `waste` is an issue that ends in no garment. A `return` names the issue it undoes by its place among the movements
 * (`of`, from 0); it may be left out where there is only one issue.
 */
export type Movement =
  | { readonly kind: 'buy'; readonly lot?: string; readonly quantity: Decimal; readonly unitCost: Decimal }
  | { readonly kind: 'issue' | 'waste'; readonly lot?: string; readonly quantity: Decimal }
  | { readonly kind: 'return'; readonly of?: number; readonly quantity: Decimal };

/** Every issue, waste and return with its cost; a return's cost is below nought. */
export type IssueCost = {
  /** Place among the movements, from 0. */
  readonly movement: number;
  readonly kind: 'issue' | 'waste' | 'return';
  readonly quantity: Decimal;
  readonly cost: Money;
};

/** More was asked for than is there. @param there what is there, as a plain numeral */
export const shortfall = (movement: number, asked: Decimal, there: Decimal): Invalid => {
  const text = `There are ${there.toFixed()} here, and ${asked.toFixed()} were asked for.`;
  return new Invalid(text, [{ field: `movements.${movement}.quantity`, text }], 'shortfall');
};

/** @throws Invalid when a quantity is not above 0 or a unit cost is below 0 */
export const mustBeMovements = (movements: readonly Movement[]): void => {
  movements.forEach((movement, index) => {
    if (movement.quantity.lte(0)) {
      throw Invalid.field(`movements.${index}.quantity`, 'A quantity moved must be above 0.');
    }
    if (movement.kind === 'buy' && movement.unitCost.lt(0)) {
      throw Invalid.field(`movements.${index}.unitCost`, 'A unit cost cannot be below 0.');
    }
  });
};
