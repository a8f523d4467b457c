import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';
import { USUAL_PAPER_CHOICES } from './paper-choices.js';
import type { Studio } from './studio.js';

/**
 * A house as it stands before any question was answered. Choices for which no published figure was found (rush,
 * minimum charge, handling) ship empty.
 *
 * @param said what is known already: the studio's name, who makes, currency, time zone
 */
export const newStudio = (said: {
  readonly name: string;
  readonly maker: string;
  readonly zone: string;
  readonly currency?: string;
  readonly locale?: string;
}): Omit<Studio, 'version'> => {
  const currency = said.currency ?? 'EUR';
  return {
    identity: {
      name: said.name,
      maker: said.maker,
      address: '',
      country: '',
      email: '',
      phone: '',
      website: '',
      currency,
      zone: said.zone,
      locale: said.locale ?? 'en-GB',
      lengthUnit: 'cm',
      clothUnit: 'm',
    },
    tax: {
      registered: false,
      taxNumber: '',
      companyNumber: '',
      category: 'E',
      rate: new Decimal(0),
      reason: 'Not registered for tax',
      pricesInclude: 'none',
    },
    pricing: {
      certainty: '0.8',
      profitBasis: 'margin',
      profitShare: new Decimal('0.10'),
      handlingShare: new Decimal(0),
      minimumCharge: undefined,
      rushShare: new Decimal(0),
      rushOn: 'labour',
      roundTo: Money.ofMinor(1, currency),
      depositRule: 'share',
      depositShare: new Decimal('0.5'),
    },
    quotes: {
      series: 'Q-{year}-{000}',
      days: 30,
      kind: 'fixed',
      terms: '',
      clothWording: '',
      exclusions: '',
      fittingsIncluded: 2,
    },
    commissionSeries: 'C-{year}-{000}',
    papers: USUAL_PAPER_CHOICES,
    overruns: 'unknown',
    sheet: 'A4',
    accent: 'madder',
    keysOn: true,
    bareTime: 'ask',
    firstRunDone: undefined,
  };
};
