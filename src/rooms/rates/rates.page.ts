import { OVERHEAD_BASES } from '../../domain/costing/cost-lines.js';
import type { Studio } from '../../domain/house/studio.js';
import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { MODE_WORDS, MODES } from '../../domain/making/mode.js';
import { overheadPools, rateCard, workingHour } from '../../domain/rates/rate-card.js';
import { rateOn } from '../../domain/rates/rate-on.js';
import type { FormModel, Link } from '../../printing/templates/page-model.js';
import type { KeptRateCard } from '../../storage/books/rates-book.js';
import { gridRows } from '../../web/forms/closed-up.js';
import {
  hourLaidOpen,
  poolLine,
  poolRateInWords,
  soldHour,
  trapWords,
} from '../../web/rates/hour-laid-open.js';
import type { PageWords } from '../../web/reply.js';
import { amountInWords, moneyInWords } from '../../web/words/amounts.js';
import { dateInWords } from '../../web/words/dates.js';

export const ratesCrumb: Link = { text: 'Rates', href: '/rates' };

/** Everything the pages of this room are drawn from. */
export type RatesView = {
  readonly studio: Studio;
  /** Newest first. */
  readonly cards: readonly KeptRateCard[];
  readonly today: CalendarDate;
};

/** What an hour costs: today's card, or an older one that is looked at. */
export const ratesPage = ({ studio, cards, today }: RatesView, looked?: KeptRateCard): PageWords => {
  const { locale } = studio.identity;
  const card = looked ?? rateOn([...cards].reverse(), today) ?? cards.at(-1);
  const title = looked ? `Rates from ${dateInWords(looked.from)}` : 'Rates';
  if (!card) return { title, room: 'rates', none: true };
  const { total } = workingHour(card);
  const sold = moneyInWords(soldHour(card, studio.pricing), locale);
  return {
    title,
    room: 'rates',
    none: false,
    ...(looked ? { crumbs: [ratesCrumb] } : {}),
    mayChange: !looked,
    since: `Holds from ${dateInWords(card.from)}`,
    lead: `An hour of ${card.person} costs ${moneyInWords(total, locale)} and must be sold at ${sold}.`,
    hour: {
      caption: `What an hour of ${card.person} costs`,
      quietCaption: true,
      lines: hourLaidOpen(card, studio.pricing, locale),
    },
    trap: trapWords(card, locale) ?? '',
    people: peopleTable(card, locale, !looked),
    others: otherLines(card, locale),
    cards: cards.length > 1 && !looked ? cardsTable(cards, card, studio) : '',
  };
};

const peopleTable = (card: KeptRateCard, locale: string, mayChange: boolean) => ({
  caption: 'Whose hours',
  columns: [
    { text: 'Name' },
    { text: 'Labour an hour', figure: true },
    { text: 'With overhead', figure: true },
  ],
  rows: card.workings.people.map(({ name, perHourByMode }, place) => {
    const own = rateCard(card.from, card.workings, name);
    const modes = MODES.flatMap((mode) => {
      const amount = perHourByMode[mode];
      return amount ? [`${MODE_WORDS[mode]} ${amountInWords(amount, locale)}`] : [];
    });
    return {
      cells: [
        { text: name, ...(mayChange ? { href: `/rates/people/${place}` } : {}), note: modes.join(', ') },
        { text: amountInWords(own.perHour, locale) },
        { text: amountInWords(workingHour(own).total, locale) },
      ],
    };
  }),
});

/** What is not part of an hour by hand: the machine, and pools that go by it or by material. */
const otherLines = (card: KeptRateCard, locale: string) => ({
  caption: 'Beside the hour',
  lines: [
    {
      label: 'An hour on the machine',
      note: card.workings.machine ? 'wear, upkeep and power' : 'nothing is reckoned for the machine yet',
      figure: amountInWords(card.machinePerHour, locale),
    },
    ...overheadPools(card.workings)
      .filter(({ base }) => base === 'machine-hours' || base === 'material-cost')
      .map((pool) => poolLine(pool, card, locale)),
  ],
});

const cardsTable = (cards: readonly KeptRateCard[], inForce: KeptRateCard, studio: Studio) => ({
  caption: 'Earlier and later rates',
  columns: [{ text: 'From' }, { text: 'An hour costs', figure: true }, { text: 'Overhead' }],
  rows: cards.map((card) => ({
    cells: [
      {
        text: dateInWords(card.from),
        href: `/rates/cards/${card.id}`,
        note: card.id === inForce.id ? 'holds today' : '',
      },
      { text: amountInWords(workingHour(card).total, studio.identity.locale) },
      {
        text: overheadPools(card.workings)
          .map(
            (pool) => `${pool.name} ${poolRateInWords(pool, card.workings.currency, studio.identity.locale)}`,
          )
          .join(', '),
      },
    ],
  })),
});

export const BASE_OPTIONS = [
  { value: 'productive-hours', text: 'hours worked' },
  { value: 'labour-cost', text: 'labour cost' },
  { value: 'machine-hours', text: 'machine hours' },
  { value: 'material-cost', text: 'material cost' },
] satisfies { value: (typeof OVERHEAD_BASES)[number]; text: string }[];

const formPage = (template: string, title: string, form: FormModel, more: object) => ({
  template,
  words: {
    title,
    room: 'rates' as const,
    crumbs: [ratesCrumb],
    form,
    leave: { text: 'Leave without saving', href: '/rates' },
    ...more,
  },
});

export const hourFormPage = (form: FormModel, view: RatesView, sum: object) => {
  const filled = Object.keys(form.values).filter((name) => /^overhead\.\d+\.name$/.test(name)).length;
  return formPage(
    'rates/hour',
    view.cards.length > 0 ? 'Change the hour' : 'Work out the hour',
    {
      ...form,
      action: '/rates/hour',
    },
    {
      currency: view.studio.identity.currency,
      overhead: {
        caption: 'Overhead in a year',
        columns: [
          { text: 'What for', wide: true },
          { text: `A year, ${view.studio.identity.currency}`, figure: true },
          { text: 'Pool' },
          { text: 'Goes by', options: BASE_OPTIONS },
        ],
        rows: gridRows('overhead', ['name', 'amount', 'pool', 'base'], filled, filled < 5 ? 8 - filled : 4),
      },
      sum,
    },
  );
};

export const personFormPage = (form: FormModel, view: RatesView, place: string, mayRemove: boolean) =>
  formPage(
    'rates/person',
    place === 'new' ? 'A further person' : 'Change a person’s hour',
    {
      ...form,
      action: `/rates/people/${place}`,
    },
    {
      currency: view.studio.identity.currency,
      modes: MODES.map((mode) => ({ name: `mode-${mode}`, label: `An hour ${MODE_WORDS[mode]}` })),
      remove: mayRemove
        ? {
            action: `/rates/people/${place}/remove`,
            text: 'Take off the card',
            once: form.once,
            values: form.version ? { version: form.version } : {},
          }
        : '',
    },
  );

export const machineFormPage = (form: FormModel, view: RatesView) =>
  formPage(
    'rates/machine',
    'The machine',
    { ...form, action: '/rates/machine' },
    {
      currency: view.studio.identity.currency,
    },
  );

/** The hour as it would be, drawn beside the form while it is filled. */
export const hourSum = (card: Parameters<typeof hourLaidOpen>[0] | undefined, studio: Studio, why = '') => {
  if (!card) return { why: why || 'The sum appears here when pay, weeks and hours are filled.', lines: '' };
  return {
    why: '',
    caption: 'The hour so far',
    lines: hourLaidOpen(card, studio.pricing, studio.identity.locale),
    trap: trapWords(card, studio.identity.locale) ?? '',
  };
};
