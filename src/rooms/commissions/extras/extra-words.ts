import { type Extra, standingExtras } from '../../../domain/commissions/extra.js';
import { causeRule } from '../../../domain/costing/cause-rules.js';
import { grossFactor } from '../../../domain/papers/tax/gross-kept.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { dateInWords } from '../../../web/words/dates.js';

export const extrasUrl = (commissionId: string): string => `/commissions/${commissionId}/extras`;
export const extraUrl = ({ commissionId, number }: Pick<Extra, 'commissionId' | 'number'>): string =>
  `${extrasUrl(commissionId)}/${number}`;

/** How an extra stands, in words. */
export const extraStateInWords = (extra: Extra, others: readonly Extra[]): string => {
  const { state, answer, kind } = extra;
  const on = answer ? ` on ${dateInWords(answer.on)}` : '';
  if (state === 'offered') return 'offered, not answered yet';
  if (state === 'declined') return `declined${on}`;
  if (state === 'withdrawn') return `withdrawn${on}`;
  const by = others.find(({ takesBack, state: theirs }) => takesBack === extra.id && theirs === 'agreed');
  if (by) return `taken back by extra ${by.number}`;
  if (kind === 'compliments') return `given with our compliments${on}`;
  return `agreed${answer?.byWhom ? ` by ${answer.byWhom}` : ''}${answer?.how ? `, ${answer.how}` : ''}${on}`;
};

/** The price as the studio keeps it. */
export const extraPriceInWords = ({ kind, price }: Pick<Extra, 'kind' | 'price'>, locale: string): string =>
  kind === 'compliments' ? 'with our compliments' : moneyInWords(price, locale);

/** The price as a client must read it: what is to be paid, tax in it. */
export const priceForClient = (
  { kind, price, pricesInclude, category, rate }: Extra,
  locale: string,
): string => {
  if (kind === 'compliments') return 'With our compliments';
  const factor = grossFactor({ category, ...(rate ? { rate } : {}) });
  if (factor.eq(1)) return moneyInWords(price, locale);
  if (pricesInclude === 'tax') return `${moneyInWords(price, locale)}, tax included`;
  return `${moneyInWords(price.timesRounded(factor), locale)}, tax included (${moneyInWords(price, locale)} before tax)`;
};

/** The day as a client reads it. */
export const dayForClient = ({ dueBefore, dueAfter }: Pick<Extra, 'dueBefore' | 'dueAfter'>): string => {
  if (!dueAfter) return 'No day was named';
  if (dueBefore === dueAfter) return `${dateInWords(dueAfter)}, as before`;
  return `${dateInWords(dueAfter)}${dueBefore ? ` in place of ${dateInWords(dueBefore)}` : ''}`;
};

/** Extras as a table: of one garment, or of a commission with the garments' names. */
export const extrasTable = (
  extras: readonly Extra[],
  locale: string,
  garmentNames?: ReadonlyMap<string, string>,
): object => ({
  caption: 'Extras',
  quietCaption: true,
  columns: [
    { text: 'Extra' },
    ...(garmentNames ? [{ text: 'Garment' }] : []),
    { text: 'Cause' },
    { text: 'Ready' },
    { text: 'How it stands' },
    { text: 'Price', figure: true },
  ],
  rows: extras.map((extra) => ({
    cells: [
      { text: `Extra ${extra.number}`, href: extraUrl(extra), note: extra.wording },
      ...(garmentNames ? [{ text: garmentNames.get(extra.garmentId) ?? 'no longer here' }] : []),
      { text: extra.cause },
      { text: extra.dueAfter ? dateInWords(extra.dueAfter) : '' },
      { text: extraStateInWords(extra, extras) },
      { text: extraPriceInWords(extra, locale) },
    ],
  })),
});

/** An extra for programs. */
export const extraInJson = (extra: Extra, others: readonly Extra[]): object => ({
  ...extra,
  currency: extra.price.currency,
  name: `extra ${extra.number}`,
  charging: causeRule(extra.cause).charging,
  stands: standingExtras(others).some(({ id }) => id === extra.id),
  stateInWords: extraStateInWords(extra, others),
  dueBefore: extra.dueBefore ?? null,
  dueAfter: extra.dueAfter ?? null,
  rate: extra.rate ?? null,
  answer: extra.answer ?? null,
  takesBack: extra.takesBack ?? null,
});
