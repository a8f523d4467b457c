import type { CurrencyCode } from '../kernel/currency.js';
import type { Decimal } from '../kernel/decimal.js';
import { type FieldTrouble, Invalid } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';

export type PurchaseLine = { readonly quantity: Decimal; readonly unitPrice: Decimal };

export type LandedLine = {
  /** quantity × unit price. */
  readonly goods: Money;
  /** The line's part of freight, duty and tax that is not recoverable. */
  readonly share: Money;
  readonly landedTotal: Money;
  /** landed total / quantity, unrounded. */
  readonly landedUnitCost: Decimal;
};

const troublesOf = (lines: readonly PurchaseLine[], shared: Money): FieldTrouble[] => [
  ...(lines.length === 0 ? [{ field: 'lines', text: 'Name at least one line that was bought.' }] : []),
  ...lines.flatMap((line, index) => [
    ...(line.quantity.lte(0)
      ? [{ field: `lines.${index}.quantity`, text: 'A quantity bought must be above 0.' }]
      : []),
    ...(line.unitPrice.lt(0)
      ? [{ field: `lines.${index}.unitPrice`, text: 'A unit price cannot be below 0.' }]
      : []),
  ]),
  ...(shared.isNegative() ? [{ field: 'shared', text: 'The shared cost cannot be below 0.' }] : []),
];

/**
 * What goods cost once they are on the shelf: price + share of freight, duty and tax that is not recoverable.
 *
 * @param lines quantities above 0, unit prices in major units, not negative
 * @param shared the cost to share, not negative
 * @param by `value` shares by quantity × price, `quantity` by quantity; a gift at no price needs `quantity`
 * @returns one line per purchase; shares by largest remainder, adding up to `shared` exactly
 * @throws Invalid naming each field that cannot be meant, and when all lines are of no value and are shared by value
 * @see IAS 2, paragraphs 10 and 11; test/reference/stock/landed-cost.test.ts
 */
export const landedCost = (
  currency: CurrencyCode,
  lines: readonly PurchaseLine[],
  shared: Money,
  by: 'value' | 'quantity',
): LandedLine[] => {
  const troubles = troublesOf(lines, shared);
  const [first] = troubles;
  if (first) throw new Invalid(first.text, troubles);
  const exact = lines.map((line) => line.quantity.times(line.unitPrice));
  const weights = by === 'value' ? exact : lines.map((line) => line.quantity);
  if (weights.every((weight) => weight.isZero())) {
    throw Invalid.field('by', 'These goods have no value to share by: share by quantity.');
  }
  const shares = shared.allocate(weights);
  return lines.map((line, index) => {
    const goods = Money.rounded(exact[index] ?? line.unitPrice, currency);
    const share = shares[index] ?? Money.zero(currency);
    const landedTotal = goods.plus(share);
    return { goods, share, landedTotal, landedUnitCost: landedTotal.toDecimal().div(line.quantity) };
  });
};
