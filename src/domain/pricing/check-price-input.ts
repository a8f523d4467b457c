import { belowNought, costInputTroubles, refuseIfAny } from '../costing/check-cost-input.js';
import type { FieldTrouble } from '../kernel/errors.js';
import type { PriceInput, PricingTerms, TaxTerms } from './price-terms.js';

const termsTroubles = (terms: PricingTerms): FieldTrouble[] => {
  const troubles: FieldTrouble[] = [
    ...belowNought('pricing.markup', terms.markup, 'A markup'),
    ...belowNought('pricing.handlingShare', terms.handlingShare, 'A handling share'),
    ...belowNought('pricing.minimumCharge', terms.minimumCharge?.toDecimal(), 'A minimum charge'),
    ...belowNought('pricing.rushShare', terms.rushShare, 'A rush share'),
    ...belowNought('pricing.discount', terms.discount?.toDecimal(), 'A discount'),
  ];
  if (terms.margin && (terms.margin.lt(0) || terms.margin.gte(1))) {
    const text = 'A margin is a share of the price: from 0 up to, not including, 1 (0.10 is 10 %).';
    troubles.push({ field: 'pricing.margin', text });
  }
  if (terms.margin && terms.markup) {
    troubles.push({ field: 'pricing.markup', text: 'Give a margin or a markup, not both.' });
  }
  if (terms.roundTo && terms.roundTo.minor <= 0) {
    troubles.push({
      field: 'pricing.roundTo',
      text: 'The rounding step must be above 0, such as 0.01 or 5.',
    });
  }
  return troubles;
};

const taxTroubles = (tax: TaxTerms): FieldTrouble[] => {
  if (!tax.rate) return [];
  if (tax.rate.lt(0) || tax.rate.gt(100)) {
    return [{ field: 'tax.rate', text: 'A tax rate is a percentage from 0 to 100.' }];
  }
  return tax.category !== 'S' && !tax.rate.isZero()
    ? [
        {
          field: 'tax.rate',
          text: `Tax category ${tax.category} carries no tax: leave the rate out, or use S.`,
        },
      ]
    : [];
};

/**
 * Refuses a price that cannot be worked out, naming every field at fault at once.
 *
 * @throws Invalid with a path per field, such as `pricing.margin`
 * @see EN 16931-1 rules BR-Z-05, BR-E-05, BR-AE-05, BR-G-05, BR-IC-05 (no rate but 0 outside the standard category);
 *   test/domain/pricing/work-out-price.test.ts
 */
export const mustBePriceable = (input: PriceInput): void => {
  const chance = input.chanceOfLoss;
  refuseIfAny([
    ...costInputTroubles(input),
    ...termsTroubles(input.pricing ?? {}),
    ...(input.tax ? taxTroubles(input.tax) : []),
    ...(typeof chance === 'number' && !(chance >= 0 && chance <= 1)
      ? [{ field: 'chanceOfLoss', text: 'A chance is a share from 0 to 1.' }]
      : []),
  ]);
};
