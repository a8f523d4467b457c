import type { CurrencyCode } from '../../kernel/currency.js';
import { Decimal } from '../../kernel/decimal.js';
import { Invalid } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import type { TaxedLine } from './tax-question.js';

/**
 * The net of one line, BT-131 = round(quantity × price ÷ base quantity) − Σ allowances + Σ charges.
 *
 * Only the product is rounded; allowances and charges are whole minor units already.
 *
 * @param line price not negative, base quantity above nought
 * @param currency of every amount in the line
 * @returns whole minor units, half away from zero
 * @throws Invalid naming the field (`price`, `baseQuantity`) that cannot be meant
 * @see OpenPEPPOL BIS Billing 3.0, PEPPOL-EN16931-R120 and R121; test/reference/papers/rule-vectors.test.ts
 */
export const lineNet = (line: TaxedLine, currency: CurrencyCode): Money => {
  if (line.price.isNegative() && !line.price.isZero())
    throw Invalid.field(
      'price',
      'A price cannot be negative. To take something off, make the quantity negative.',
    );
  const base = line.baseQuantity ?? new Decimal(1);
  if (!base.isPositive() || base.isZero())
    throw Invalid.field('baseQuantity', 'The quantity a price is for must be above nought.');
  const product = Money.rounded(line.quantity.times(line.price).div(base), currency);
  return product
    .minus(Money.sum(line.allowances ?? [], currency))
    .plus(Money.sum(line.charges ?? [], currency));
};
