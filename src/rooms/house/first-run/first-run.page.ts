import type { Studio } from '../../../domain/house/studio.js';
import type { RateCard } from '../../../domain/rates/rate-card.js';
import { workingHour } from '../../../domain/rates/rate-card.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { gridRows } from '../../../web/forms/closed-up.js';
import { hourLaidOpen, soldHour, trapWords } from '../../../web/rates/hour-laid-open.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import {
  CLOTH_UNITS,
  currencyChoices,
  LENGTH_UNITS,
  localeChoices,
  overrunChoices,
  TAX_CAUTION,
  taxChoices,
} from '../choices.js';

const skipPress = (once: string) => ({ action: '/first-run/skip', text: 'Skip for now', once });

export const housePage = (form: FormModel, skipKey: string): { template: string; words: PageWords } => ({
  template: 'first-run/house',
  words: {
    title: 'The house',
    room: 'house',
    form: { ...form, action: '/first-run' },
    currencies: currencyChoices(),
    locales: localeChoices('en-GB'),
    lengths: LENGTH_UNITS,
    cloths: CLOTH_UNITS,
    taxes: taxChoices(),
    caution: TAX_CAUTION,
    skip: skipPress(skipKey),
  },
});

export const hourPage = (
  form: FormModel,
  studio: Studio,
  sum: object,
  skipKey: string,
): { template: string; words: PageWords } => {
  const filled = Object.keys(form.values).filter((name) => /^overhead\.\d+\.name$/.test(name)).length;
  return {
    template: 'first-run/hour',
    words: {
      title: 'The hour',
      room: 'house',
      form: { ...form, action: '/first-run/hour' },
      currency: studio.identity.currency,
      overhead: {
        caption: 'What the workroom costs in a year',
        columns: [
          { text: 'What for', wide: true },
          { text: `A year, ${studio.identity.currency}`, figure: true },
        ],
        rows: gridRows('overhead', ['name', 'amount'], filled, filled < 5 ? 8 - filled : 3),
      },
      overruns: overrunChoices(),
      sum,
      skip: skipPress(skipKey),
    },
  };
};

/** The hour while it is being filled in. */
export const hourSoFar = (card: RateCard | undefined, studio: Studio, why = ''): object =>
  card
    ? {
        why: '',
        caption: 'The hour so far',
        lines: hourLaidOpen(card, studio.pricing, studio.identity.locale),
        trap: trapWords(card, studio.identity.locale) ?? '',
      }
    : { why: why || 'The sum appears here when pay, weeks and hours are filled.', lines: '' };

/** The end of the first run: the working hour laid open, and the first client. */
export const donePage = (studio: Studio, card: RateCard | undefined): PageWords => {
  const { locale, name } = studio.identity;
  if (!card) return { title: `${name} is open`, room: 'house', hour: '' };
  const sold = moneyInWords(soldHour(card, studio.pricing), locale);
  return {
    title: 'Your hour',
    room: 'house',
    lead: `An hour of ${card.person} costs ${moneyInWords(workingHour(card).total, locale)}. With the profit the house begins with it must be sold at ${sold}.`,
    hour: {
      caption: 'How the hour comes about',
      lines: hourLaidOpen(card, studio.pricing, locale),
    },
    bare: workingHour(card).overhead.isZero(),
    trap: trapWords(card, locale) ?? '',
  };
};
