import type { Commission } from '../../../../domain/commissions/commission.js';
import type { CalendarDate } from '../../../../domain/kernel/calendar-date.js';
import type { FormModel } from '../../../../printing/templates/page-model.js';
import type { IssuedQuote } from '../../../../storage/books/papers/quote-book.js';
import { freshForm } from '../../../../web/forms/form.js';
import { quoteName, quoteStateInWords } from '../../../../web/papers/quote-state-words.js';
import type { PageWords } from '../../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../../web/words/amounts.js';
import { commissionCrumbs } from '../../commission.page.js';
import { documentOf } from '../kept-prices.js';
import { paperUrl, quotesUrl } from '../quotes.page.js';
import type { ThenAndNow } from './compare-quote.js';

const crumbsOf = (commission: Commission, quote: IssuedQuote) => [
  ...commissionCrumbs(commission),
  { text: 'Quotes', href: quotesUrl(commission.id) },
  { text: quoteName(quote), href: paperUrl(quote.id) },
];

/** The answer form as it is first shown: today, by the client, everything in the price ticked. */
export const answerForm = (quote: IssuedQuote, today: CalendarDate): FormModel => {
  const { draft } = documentOf(quote);
  const ticked = [
    ...draft.garments.map(({ ref }) => ref),
    ...(draft.options ?? []).filter(({ taken }) => taken).map(({ ref }) => ref),
  ];
  return freshForm('', {
    answer: 'accepted',
    answeredOn: today,
    byWhom: quote.clientName,
    ...Object.fromEntries(ticked.map((ref) => [`taken.${ref}`, 'yes'])),
  });
};

/** Where a client's answer is put down. */
export const answerPage = (
  form: FormModel,
  commission: Commission,
  quote: IssuedQuote,
  today: CalendarDate,
): { template: string; words: PageWords } => {
  const { sheet, draft } = documentOf(quote);
  const prices = sheet.garments.map(({ price }) => price);
  const options = (draft.options ?? []).filter(({ taken }) => !taken);
  return {
    template: 'commissions/quotes/answer',
    words: {
      title: `The answer to ${quoteName(quote)}`,
      room: 'commissions',
      crumbs: crumbsOf(commission, quote),
      form: { ...form, action: `${quotesUrl(commission.id)}/${quote.id}/answer` },
      state: quoteStateInWords(quote, today),
      several: draft.garments.length > 1 || options.length > 0,
      garments: draft.garments.map(({ ref, name }, place) => ({
        name: `taken.${ref}`,
        label: `${name}, ${prices[place] ?? ''}`,
      })),
      options: options.map(({ ref, text }, place) => ({
        name: `taken.${ref}`,
        label: `${text}, ${sheet.options[place]?.price ?? ''}`,
      })),
      anyOptions: options.length > 0,
      only: draft.garments.length === 1 ? `taken.${draft.garments[0]?.ref ?? ''}` : '',
      leave: { text: 'Leave without keeping', href: paperUrl(quote.id) },
    },
  };
};

/** Where an answer that was put down wrongly is taken back. */
export const correctionPage = (
  form: FormModel,
  commission: Commission,
  quote: IssuedQuote,
  today: CalendarDate,
): { template: string; words: PageWords } => ({
  template: 'commissions/quotes/correction',
  words: {
    title: `Take back the answer to ${quoteName(quote)}`,
    room: 'commissions',
    crumbs: crumbsOf(commission, quote),
    form: { ...form, action: `${quotesUrl(commission.id)}/${quote.id}/correction` },
    state: quoteStateInWords(quote, today),
    leave: { text: 'Leave it as it is', href: paperUrl(quote.id) },
  },
});

/** An issued quote beside today's prices, with the causes in words. */
export const againPage = ({ quote, commission, studio, garments }: ThenAndNow): PageWords => {
  const { locale } = studio.identity;
  const all = garments.every(({ today }) => today !== undefined);
  const sum = (of: 'earlier' | 'today') =>
    garments
      .flatMap((one) => one[of] ?? [])
      .reduce<ThenAndNow['quote']['total'] | undefined>(
        (total, money) => (total ? total.plus(money) : money),
        undefined,
      );
  const [earlier, today] = [sum('earlier'), sum('today')];
  const signed = (money: NonNullable<typeof earlier>): string =>
    `${money.isNegative() || money.isZero() ? '' : '+'}${amountInWords(money, locale)}`;
  const causes = (one: ThenAndNow['garments'][number]): string => {
    if (!one.difference) return 'no longer in the commission, or without a price';
    const { hours, rates, materials, expenses, onTop, whole } = one.difference;
    if (whole.isZero()) return 'as then';
    const named = [
      { what: 'hours', money: hours },
      { what: 'what an hour costs', money: rates },
      { what: 'materials', money: materials },
      { what: 'expenses', money: expenses },
      { what: 'margin, handling and rounding', money: onTop },
    ].filter(({ money }) => !money.isZero());
    return named.map(({ what, money }) => `${what} ${signed(money)}`).join('; ');
  };
  const difference = earlier && today && all ? today.minus(earlier) : undefined;
  return {
    title: `${quoteName(quote)} at today’s rates`,
    room: 'commissions',
    crumbs: crumbsOf(commission, quote),
    lead: !difference
      ? 'Some of it can no longer be compared.'
      : difference.isZero()
        ? 'Nothing has changed: today’s price is the same.'
        : `Today it would be ${moneyInWords(difference.isNegative() ? difference.negated() : difference, locale)} ${difference.isNegative() ? 'less' : 'more'} before tax.`,
    table: {
      caption: 'Price before tax, then and today',
      columns: [
        { text: 'Garment' },
        { text: 'Then', figure: true },
        { text: 'Today', figure: true },
        { text: 'Difference', figure: true },
        { text: 'Because of' },
      ],
      rows: garments.map((one) => ({
        cells: [
          { text: one.name },
          { text: amountInWords(one.earlier, locale) },
          { text: one.today ? amountInWords(one.today, locale) : '' },
          { text: one.difference ? signed(one.difference.whole) : '' },
          { text: causes(one) },
        ],
      })),
      ...(difference && garments.length > 1 && earlier && today
        ? {
            foot: [
              {
                cells: [
                  { text: 'Together' },
                  { text: amountInWords(earlier, locale) },
                  { text: amountInWords(today, locale) },
                  { text: signed(difference) },
                  { text: '' },
                ],
              },
            ],
          }
        : {}),
    },
    begin: {
      action: `${quotesUrl(commission.id)}/${quote.id}/again`,
      text: 'Make it a new version',
      once: freshForm('').once,
    },
    back: { text: 'Leave the quote as it is', href: paperUrl(quote.id) },
  };
};
