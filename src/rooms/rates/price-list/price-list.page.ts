import { randomUUID } from 'node:crypto';
import type { Studio } from '../../../domain/house/studio.js';
import type { Money } from '../../../domain/kernel/money.js';
import { type StandingPrice, standingPrice } from '../../../domain/pricing/price-list.js';
import type { PriceListLine, PriceListSort } from '../../../domain/pricing/price-list-line.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PriceListWords } from '../../../storage/books/price-list-book.js';
import { figureInWords } from '../../../web/rates/hour-laid-open.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { countInWords } from '../../../web/words/counts.js';
import { ratesCrumb } from '../rates.page.js';

const SORT_WORDS: Record<PriceListSort, string> = {
  counter: 'Counter work and alterations',
  'make-and-trim': 'Make and trim, for a client’s own cloth',
};
const sortOptions = Object.entries(SORT_WORDS).map(([value, text]) => ({ value, text }));

/** What a line costs at an hour sold at `perHour`, before any price put by hand. */
export const priceOf = (
  line: Pick<PriceListLine, 'hours' | 'trimmings'>,
  perHour: Money,
  { pricing }: Pick<Studio, 'pricing'>,
): StandingPrice =>
  standingPrice({
    currency: perHour.currency,
    hours: line.hours,
    perHour: perHour.toDecimal(),
    roundTo: pricing.roundTo,
    ...(line.trimmings && { trimmings: line.trimmings }),
    ...(pricing.minimumCharge && { minimumCharge: pricing.minimumCharge }),
  });

const rowOf = (line: PriceListLine, perHour: Money, studio: Studio) => {
  const { locale } = studio.identity;
  const { worked, price, minimumApplied } = priceOf(line, perHour, studio);
  const shown = line.ownPrice ?? price;
  return {
    cells: [
      { text: line.name, href: `/rates/price-list/${line.id}` },
      {
        text: figureInWords(line.hours, locale),
        note: line.fromStartingValues ? 'starting value' : 'ours',
      },
      { text: line.trimmings ? amountInWords(line.trimmings, locale) : '' },
      { text: amountInWords(worked, locale) },
      {
        text: amountInWords(shown, locale),
        note: line.ownPrice ? 'put by hand' : minimumApplied ? 'minimum charge' : '',
      },
    ],
  };
};

/** The house price list at today's hour. */
export const priceListPage = (
  lines: readonly PriceListLine[],
  offered: readonly PriceListWords[],
  perHour: Money | undefined,
  studio: Studio,
): PageWords => {
  const head = { title: 'House price list', room: 'rates' as const, crumbs: [ratesCrumb] };
  if (!perHour) return { ...head, noHour: true };
  const { locale, currency } = studio.identity;
  const { minimumCharge } = studio.pricing;
  const least = minimumCharge ? `; the minimum charge is ${moneyInWords(minimumCharge, locale)}` : '';
  return {
    ...head,
    noHour: false,
    lead: `An hour is sold at ${moneyInWords(perHour, locale)}${least}. Prices are without tax, and follow the hour unless they are put by hand.`,
    tables: sortOptions.flatMap(({ value, text }) => {
      const own = lines.filter(({ sort }) => sort === value);
      return own.length === 0
        ? []
        : [
            {
              caption: text,
              columns: [
                { text: 'Job' },
                { text: 'Hours', figure: true },
                { text: 'Trimmings', figure: true },
                { text: 'Worked out', figure: true },
                { text: `Price, ${currency}`, figure: true },
              ],
              rows: own.map((line) => rowOf(line, perHour, studio)),
            },
          ];
    }),
    offers: sortOptions.flatMap(({ value, text }) => {
      const more = offered.filter(({ sort }) => sort === value).length;
      return more === 0
        ? []
        : [
            {
              press: {
                action: '/rates/price-list/take-over',
                text: `Take in ${countInWords(more, 'line')}: ${text.toLowerCase()}`,
                once: randomUUID(),
                values: { sort: value },
              },
            },
          ];
    }),
    any: lines.length > 0,
  };
};

export const priceLinePage = (
  form: FormModel,
  studio: Studio,
  line?: PriceListLine,
): { template: string; words: PageWords } => ({
  template: 'rates/price-line',
  words: {
    title: line ? line.name : 'A new line',
    room: 'rates',
    crumbs: [ratesCrumb, { text: 'House price list', href: '/rates/price-list' }],
    form: { ...form, action: `/rates/price-list/${line?.id ?? 'new'}` },
    currency: studio.identity.currency,
    sorts: sortOptions,
    leave: { text: 'Leave without saving', href: '/rates/price-list' },
    remove: line
      ? {
          action: `/rates/price-list/${line.id}/remove`,
          text: 'Take it off the list',
          once: form.once,
          values: { version: String(line.version) },
        }
      : '',
  },
});
