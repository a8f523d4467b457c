import type { CurrencyCode } from '../kernel/currency.js';
import { Decimal } from '../kernel/decimal.js';
import { OutOfRange } from '../kernel/errors.js';
import type { CostedMaterial, MaterialLine, WasteOf } from './cost-lines.js';
import { roundOnce } from './round-once.js';

/**
 * How much to buy so that, after waste, the needed quantity is left.
 *
 * Waste of net: needed × (1 + share). Waste of gross: needed / (1 − share). 10 % on 2.90 m is 3.19 m or 3.22 m.
 *
 * @param needed quantity that ends in the garment
 * @param share waste as a share of one, not negative; below 1 when it is a share of gross
 * @param of what the share is a share of
 * @returns quantity to buy, unrounded
 * @throws OutOfRange when the share is negative, or reaches 1 of gross
 * @see test/reference/costing/worked-sums.test.ts WS-14
 */
export const quantityWithWaste = (needed: Decimal, share: Decimal, of: WasteOf): Decimal => {
  if (share.lt(0) || (of === 'gross' && share.gte(1))) {
    throw new OutOfRange(
      'The waste share must not be negative, and below 1 when it is a share of what is bought.',
    );
  }
  return of === 'net' ? needed.times(share.plus(1)) : needed.div(new Decimal(1).minus(share));
};

const chargedUnitCost = (material: CostedMaterial): Decimal => {
  if (material.chargeAt === 'nil') return new Decimal(0);
  if (material.chargeAt === 'cost') return material.unitCost;
  return material.replacementUnitCost ?? material.unitCost;
};

/**
 * What one material costs and what it is charged at: bought quantity × unit cost, each rounded once.
 *
 * Stash is charged at its replacement value unless the maker says otherwise, so that a price is never too low because
 * a button was inherited; the difference to book cost is the uplift.
 *
 * @param material quantity needed, landed unit cost in major units, waste share
 * @param wasteOf what a waste share means where the material does not say
 * @returns the line; money rounded half away from zero
 * @throws OutOfRange when the waste share cannot be meant
 * @see test/domain/costing/cost-sheet.test.ts
 */
export const costMaterial = (
  material: CostedMaterial,
  currency: CurrencyCode,
  wasteOf: WasteOf = 'net',
): MaterialLine => {
  const quantity = quantityWithWaste(
    material.quantity,
    material.wasteShare ?? new Decimal(0),
    material.wasteOf ?? wasteOf,
  );
  const cost = roundOnce(quantity.times(material.unitCost), currency);
  const unit = chargedUnitCost(material);
  const charged = roundOnce(quantity.times(unit), currency);
  return {
    name: material.name,
    netQuantity: material.quantity,
    quantity,
    unitCost: material.unitCost,
    cost,
    chargeAt: material.chargeAt ?? 'replacement',
    chargedUnitCost: unit,
    charged,
    uplift: charged.minus(cost),
    handling: material.handling ?? false,
  };
};
