import {
  type CounterTicket,
  counterComesTo,
  counterState,
  daysWaiting,
} from '../../../domain/counter/counter-ticket.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PageOf } from '../../../storage/books/client-book.js';
import { gridRows } from '../../../web/forms/closed-up.js';
import type { CounterPrice } from '../../../web/rates/counter-prices.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { JOB_FIELDS } from './counter.form.js';

const HERE = '/bench/counter';
const benchCrumb = { text: 'Bench', href: '/' };
const counterCrumb = { text: 'Counter work', href: HERE };
export const counterUrl = (id: string): string => `${HERE}/${id}`;

export const UNCOLLECTED =
  'Work that nobody collects needs notice before anything else is done with it. Rules differ by country; check yours or ask a licensed adviser.';

type Drawn = { template: string; words: PageWords };

/** How tickets are told: today, the house, and whether prices and addresses show. */
export type CounterManner = {
  readonly today: CalendarDate;
  readonly identity: StudioIdentity;
  readonly seesPrices: boolean;
};

/** `ready since 2 March 2026, 12 days not collected`. */
export const counterStateInWords = (ticket: CounterTicket, today: CalendarDate): string => {
  const state = counterState(ticket, today);
  if (state === 'collected')
    return `collected by ${ticket.collectedBy} on ${dateInWords(ticket.collectedOn ?? today)}`;
  if (state === 'ready') {
    const days = daysWaiting(ticket, today);
    return days === 0 ? 'ready today' : `ready for ${countInWords(days, 'day')}, not collected`;
  }
  if (state === 'late') return `was to be ready by ${dateInWords(ticket.readyBy ?? today)}`;
  return ticket.readyBy ? `to be ready by ${dateInWords(ticket.readyBy)}` : 'in work';
};

/** `18.00`, or with how many jobs have no price yet. */
const priceOf = (ticket: CounterTicket, locale: string): { text: string; note?: string } => {
  const { total, open } = counterComesTo(ticket);
  const text = amountInWords(total, locale);
  return open > 0 ? { text, note: `${countInWords(open, 'job')} without a price yet` } : { text };
};

const table = (
  caption: string,
  tickets: readonly CounterTicket[],
  { today, identity, seesPrices }: CounterManner,
) => ({
  caption,
  columns: [
    { text: 'Ticket' },
    { text: 'Whose' },
    { text: 'What' },
    { text: 'How it stands' },
    ...(seesPrices ? [{ text: `Price, ${identity.currency}`, figure: true }] : []),
  ],
  rows: tickets.map((ticket) => ({
    cells: [
      { text: ticket.number, href: counterUrl(ticket.id) },
      { text: ticket.name, note: seesPrices ? ticket.reachedAt : '' },
      { text: ticket.what, note: ticket.lines.map(({ job }) => job).join(', ') },
      { text: counterStateInWords(ticket, today) },
      ...(seesPrices ? [priceOf(ticket, identity.locale)] : []),
    ],
  })),
});

/** What is ready and not collected, what is in work, and what was collected. */
export const counterPage = (
  here: readonly CounterTicket[],
  gone: PageOf<CounterTicket>,
  manner: CounterManner,
  after: string,
): PageWords => {
  const ready = here.filter(({ readyOn }) => readyOn);
  const inWork = here.filter(({ readyOn }) => !readyOn);
  return {
    title: 'Counter work',
    room: 'bench',
    crumbs: [benchCrumb],
    none: here.length === 0 && gone.items.length === 0 && !after,
    lead:
      ready.length === 0
        ? 'Nothing waits to be collected.'
        : `${capitalised(countInWords(ready.length, 'piece is', 'pieces are'))} ready and not collected.`,
    anyReady: ready.length > 0,
    ready: table('Ready, not collected', ready, manner),
    uncollected: UNCOLLECTED,
    anyInWork: inWork.length > 0,
    inWork: table('In work', inWork, manner),
    anyGone: gone.items.length > 0,
    gone: table('Collected, newest first', gone.items, manner),
    pager: {
      label: 'Collected',
      ...(after ? { earlier: { text: 'From the newest', href: HERE } } : {}),
      ...(gone.next ? { later: { text: 'Further back', href: `${HERE}?after=${gone.next}` } } : {}),
    },
  };
};

/** The form that takes work in, or corrects a ticket. */
export const counterFormPage = (
  form: FormModel,
  prices: readonly CounterPrice[],
  { identity, seesPrices }: CounterManner,
  kept?: CounterTicket,
): Drawn => {
  const filled = Object.keys(form.values).filter((name) => /^lines\.\d+\.job$/.test(name)).length;
  const shown = ({ price, job }: CounterPrice): string =>
    seesPrices && price ? `${job} (${moneyInWords(price, identity.locale)})` : job;
  return {
    template: 'bench/counter/ticket-form',
    words: {
      title: kept ? `Correct ${kept.number}` : 'Take work in',
      room: 'bench',
      crumbs: [benchCrumb, counterCrumb],
      form: { ...form, action: kept ? `${counterUrl(kept.id)}/edit` : HERE },
      // A hand that sees no prices corrects the words of a ticket, not its priced jobs.
      mayJobs: seesPrices || !kept,
      seesPrices,
      grid: {
        caption: 'Jobs',
        columns: [
          {
            text: 'From the price list',
            options: prices.map((one) => ({ value: one.id, text: shown(one) })),
          },
          { text: 'Or another job', wide: true },
          ...(seesPrices ? [{ text: `Price, ${identity.currency}`, figure: true }] : []),
        ],
        rows: gridRows(
          'lines',
          seesPrices ? JOB_FIELDS : JOB_FIELDS.slice(0, 2),
          filled,
          filled === 0 ? 3 : 2,
        ),
      },
      leave: { text: 'Leave without saving', href: kept ? counterUrl(kept.id) : HERE },
    },
  };
};

/** One ticket, and what comes next for it. */
export const counterTicketPage = (form: FormModel, ticket: CounterTicket, manner: CounterManner): Drawn => {
  const { today, identity, seesPrices } = manner;
  const url = counterUrl(ticket.id);
  return {
    template: 'bench/counter/ticket',
    words: {
      title: ticket.number,
      room: 'bench',
      crumbs: [benchCrumb, counterCrumb],
      lead: `${ticket.what}: ${counterStateInWords(ticket, today)}.`,
      facts: [
        { label: 'Whose', text: ticket.name },
        { label: 'Reached at', text: seesPrices ? ticket.reachedAt : '' },
        { label: 'Came in', text: dateInWords(ticket.cameOn) },
        { label: 'As it came', text: ticket.found },
        { label: 'Ready by', text: ticket.readyBy ? dateInWords(ticket.readyBy) : '' },
        { label: 'Ready', text: ticket.readyOn ? dateInWords(ticket.readyOn) : '' },
        { label: 'Notes', text: ticket.notes },
      ].filter(({ text }) => text !== ''),
      jobs: {
        caption: 'Jobs',
        columns: [
          { text: 'Job' },
          ...(seesPrices ? [{ text: `Price, ${identity.currency}`, figure: true }] : []),
        ],
        rows: ticket.lines.map(({ job, price }) => ({
          cells: [
            { text: job },
            ...(seesPrices ? [{ text: price ? amountInWords(price, identity.locale) : 'not said yet' }] : []),
          ],
        })),
        ...(seesPrices
          ? { foot: [{ cells: [{ text: 'Together' }, priceOf(ticket, identity.locale)] }] }
          : {}),
      },
      isInWork: !ticket.readyOn && !ticket.collectedOn,
      isHere: !ticket.collectedOn,
      readyForm: { ...form, action: `${url}/ready` },
      form: { ...form, action: `${url}/collected` },
      editUrl: `${url}/edit`,
      pdf: `${url}/ticket.pdf`,
    },
  };
};

/** The ticket on paper: one half stays with the work, the other is the client's. */
export const counterPaper = (
  ticket: CounterTicket,
  { identity, seesPrices }: CounterManner,
  takesTax: boolean,
) => {
  const { total, open } = counterComesTo(ticket);
  return {
    language: identity.locale,
    studio: identity.name,
    reach: [identity.address.replace(/\n+/g, ', '), identity.phone].filter(Boolean).join(' · '),
    number: ticket.number,
    what: ticket.what,
    jobs: ticket.lines.map(({ job, price }) => ({
      job,
      price: seesPrices && price ? moneyInWords(price, identity.locale) : '',
    })),
    came: dateInWords(ticket.cameOn),
    ready: ticket.readyBy ? dateInWords(ticket.readyBy) : '',
    found: ticket.found,
    price: seesPrices && open === 0 ? moneyInWords(total, identity.locale) : '',
    beforeTax: takesTax ? ', before tax' : '',
  };
};
