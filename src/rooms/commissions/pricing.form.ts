import { z } from 'zod';
import type { Commission } from '../../domain/commissions/commission.js';
import { CERTAINTIES, DEPOSIT_RULES, type PricingChoices } from '../../domain/house/studio.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { Money } from '../../domain/kernel/money.js';
import { oneOf } from '../../web/fields/fields.js';
import type { FieldKit } from '../../web/fields/kits.js';
import { moneyForField, moneyInWords } from '../../web/words/amounts.js';
import { shareForField, shareInWords } from '../../web/words/shares.js';

/** What a commission is priced by, and the discount off its whole price. */
export type PricingSaid = { readonly pricing: PricingChoices; readonly discount: Money };

const chosen = {
  certainty: oneOf(CERTAINTIES, 'Choose how certain the hours should be.'),
  profitBasis: oneOf(['margin', 'markup'], 'Choose a margin or a markup.'),
  rushOn: oneOf(['labour', 'price'], 'Choose what rush goes on.'),
  depositRule: oneOf(DEPOSIT_RULES, 'Choose a rule for the deposit.'),
};

/** A commission's pricing: as people write it on the form, or as programs send it. */
export const PricingFields = (kit: FieldKit) => {
  const share = (most: number) =>
    kit.share('Write a percentage, 0 for none.', { most }).default(new Decimal(0));
  return z
    .strictObject({
      ...chosen,
      profitShare: kit.share('Write a percentage, 0 for none.', { most: 1000 }),
      handlingShare: share(100),
      minimumCharge: kit.optionalMoney(),
      rushShare: share(1000),
      rushOn: chosen.rushOn.default('labour'),
      roundTo: kit.optionalMoney(),
      discount: kit.optionalMoney(),
      depositShare: share(100),
    })
    .refine(({ profitBasis, profitShare }) => profitBasis === 'markup' || profitShare.lt(1), {
      path: ['profitShare'],
      message: 'A margin is a share of the price, so it must stay below 100 %.',
    })
    .transform(
      ({ discount, minimumCharge, roundTo, ...said }): PricingSaid => ({
        pricing: {
          ...said,
          minimumCharge: minimumCharge?.isZero() ? undefined : minimumCharge,
          roundTo: roundTo && !roundTo.isZero() ? roundTo : Money.ofMinor(1, kit.currency),
        },
        discount: discount ?? Money.zero(kit.currency),
      }),
    );
};

/** A commission's pricing as its form's fields. */
export const typedPricing = ({ pricing, discount }: Commission, locale: string): Record<string, string> => ({
  certainty: pricing.certainty,
  profitBasis: pricing.profitBasis,
  profitShare: shareForField(pricing.profitShare),
  handlingShare: shareForField(pricing.handlingShare),
  minimumCharge: pricing.minimumCharge ? moneyForField(pricing.minimumCharge, locale) : '',
  rushShare: shareForField(pricing.rushShare),
  rushOn: pricing.rushOn,
  roundTo: moneyForField(pricing.roundTo, locale),
  discount: discount.isZero() ? '' : moneyForField(discount, locale),
  depositRule: pricing.depositRule,
  depositShare: shareForField(pricing.depositShare),
});

export const CERTAINTY_WORDS = { '0.5': 'even', '0.8': '4 in 5', '0.9': '9 in 10' } as const;

/** How a commission is priced, in pairs of words. */
export const pricingInWords = (
  { pricing, discount }: Commission,
  locale: string,
): { label: string; text: string }[] => {
  const share = (of: Decimal): string => shareInWords(of, 1);
  const deposit =
    pricing.depositRule === 'none'
      ? 'none'
      : pricing.depositRule === 'share'
        ? `${share(pricing.depositShare)} of the price`
        : `all materials and ${share(pricing.depositShare)} of the labour`;
  return [
    { label: 'Certainty of the hours', text: CERTAINTY_WORDS[pricing.certainty] },
    {
      label: pricing.profitBasis === 'margin' ? 'Margin' : 'Markup',
      text: `${share(pricing.profitShare)} of the ${pricing.profitBasis === 'margin' ? 'price' : 'cost'}`,
    },
    ...(pricing.handlingShare.isZero()
      ? []
      : [{ label: 'Handling', text: `${share(pricing.handlingShare)} of flagged materials` }]),
    ...(pricing.rushShare.isZero()
      ? []
      : [{ label: 'Rush', text: `${share(pricing.rushShare)} on the ${pricing.rushOn}` }]),
    ...(pricing.minimumCharge
      ? [{ label: 'Minimum charge', text: moneyInWords(pricing.minimumCharge, locale) }]
      : []),
    { label: 'Prices go up to', text: moneyInWords(pricing.roundTo, locale) },
    ...(discount.isZero() ? [] : [{ label: 'Discount', text: moneyInWords(discount, locale) }]),
    { label: 'Deposit', text: deposit },
  ];
};
