import { z } from 'zod';
import { type StudioTax, TAX_CATEGORIES } from '../../domain/house/studio.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { Invalid } from '../../domain/kernel/errors.js';
import { oneOf, optionalLine, yesNo } from '../../web/fields/fields.js';
import type { FieldKit } from '../../web/fields/kits.js';

/** What is asked about tax: on the first run, in the House room, and in the JSON interface. */
export const taxFields = (kit: FieldKit) => ({
  registered: yesNo(),
  taxNumber: optionalLine(40),
  category: oneOf(TAX_CATEGORIES, 'Choose what your work falls under.').default('S'),
  rate: kit.optionalNumber({ most: 100 }),
  reason: optionalLine(200),
});
const TaxSaid = (kit: FieldKit) => z.strictObject(taxFields(kit));

const REASONS: Partial<Record<string, string>> = {
  E: 'Exempt from tax',
  AE: 'Reverse charge',
  O: 'Not subject to tax',
  G: 'Export outside the tax area',
  K: 'Supply to another member state',
};

/**
 * How the studio stands towards tax, out of what was said.
 *
 * @throws Invalid where the standard category has no rate above 0, or another has one
 * @see EN 16931-1, BR-S-05, BR-Z-05, BR-E-05 and kin; BR-E-10 asks for a reason
 */
export const taxOf = (
  said: z.output<ReturnType<typeof TaxSaid>>,
  before: Pick<StudioTax, 'companyNumber' | 'pricesInclude'>,
): StudioTax => {
  const { companyNumber, pricesInclude } = before;
  const nought = new Decimal(0);
  if (!said.registered) {
    return {
      registered: false,
      taxNumber: said.taxNumber,
      companyNumber,
      category: said.category === 'O' ? 'O' : 'E',
      rate: nought,
      reason: said.reason || 'Not registered for tax',
      pricesInclude,
    };
  }
  const rate = said.rate ?? nought;
  if (said.taxNumber === '')
    throw Invalid.field('taxNumber', 'Give the tax number; it stands on every invoice.');
  if (said.category === 'S' && rate.lte(0))
    throw Invalid.field(
      'rate',
      'The standard category has a rate above 0 %. For 0 % choose zero rated or exempt.',
    );
  if (said.category !== 'S' && rate.gt(0))
    throw Invalid.field('rate', 'Only the standard category has a rate above 0 %.');
  const reason = said.reason || REASONS[said.category] || '';
  return {
    registered: true,
    taxNumber: said.taxNumber,
    companyNumber,
    category: said.category,
    rate,
    reason: said.category === 'S' || said.category === 'Z' ? '' : reason,
    pricesInclude,
  };
};
