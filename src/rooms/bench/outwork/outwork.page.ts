import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Money } from '../../../domain/kernel/money.js';
import {
  daysLate,
  OUTWORK_STATES,
  type Outworker,
  type OutworkTicket,
  outworkComesTo,
  outworkState,
} from '../../../domain/outwork/outwork.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PageOf } from '../../../storage/books/client-book.js';
import type { GarmentToCharge } from '../../../storage/books/money-out/garments-to-charge.js';
import { gridRows } from '../../../web/forms/closed-up.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { RATE_FIELDS } from './outwork.form.js';

const HERE = '/bench/outwork';
const benchCrumb = { text: 'Bench', href: '/' };
const outworkCrumb = { text: 'Outwork', href: HERE };
export const ticketUrl = (id: string): string => `${HERE}/${id}`;
export const outworkerUrl = (id: string): string => `${HERE}/workers/${id}`;

/** Piece rates and the lowest lawful wage: said where a rate is written. */
export const LEGAL_FLOOR =
  'Piece rates have a legal floor in many countries: a piece must pay at least the lowest lawful wage for the time it takes. This adds up what you entered. Rules differ by country; check yours or ask a licensed adviser.';

type Drawn = { template: string; words: PageWords };

/** Tickets with what is told beside them. */
export type OutworkTold = {
  readonly names: ReadonlyMap<string, string>;
  readonly paid: ReadonlySet<string>;
  readonly today: CalendarDate;
  readonly seesPrices: boolean;
  readonly identity: StudioIdentity;
};

/** `out since 2 March 2026, due 9 March 2026, 3 days late`. */
export const stateInWords = (ticket: OutworkTicket, isPaid: boolean, today: CalendarDate): string => {
  const state = outworkState(ticket, isPaid);
  if (state !== 'out') return OUTWORK_STATES[state];
  const late = daysLate(ticket, today);
  if (late > 0) return `out, ${countInWords(late, 'day')} late`;
  return ticket.dueOn === today ? 'out, due today' : 'out';
};

const lateInWords = (late: number, out: number): string =>
  late === 0 ? '' : late < out ? `, ${late} of them late` : late === 1 ? ', late' : ', all of them late';

const table = (caption: string, tickets: readonly OutworkTicket[], told: OutworkTold) => ({
  caption,
  columns: [
    { text: 'Ticket' },
    { text: 'With' },
    { text: 'Work' },
    { text: 'Out' },
    { text: 'Due' },
    { text: 'How it stands' },
    ...(told.seesPrices ? [{ text: `Comes to, ${told.identity.currency}`, figure: true }] : []),
  ],
  rows: tickets.map((ticket) => ({
    cells: [
      { text: ticket.number, href: ticketUrl(ticket.id) },
      { text: told.names.get(ticket.outworkerId) ?? '' },
      { text: ticket.work, note: `${ticket.garmentName}, ${countInWords(ticket.pieces, 'piece')}` },
      { text: dateInWords(ticket.outOn) },
      { text: ticket.dueOn ? dateInWords(ticket.dueOn) : '' },
      { text: stateInWords(ticket, told.paid.has(ticket.id), told.today) },
      ...(told.seesPrices ? [{ text: amountInWords(outworkComesTo(ticket), told.identity.locale) }] : []),
    ],
  })),
});

/** What is out now, and every ticket. */
export const outworkPage = (
  out: readonly OutworkTicket[],
  list: PageOf<OutworkTicket>,
  told: OutworkTold,
  after: string,
): PageWords => {
  const late = out.filter((ticket) => daysLate(ticket, told.today) > 0).length;
  return {
    title: 'Outwork',
    room: 'bench',
    crumbs: [benchCrumb],
    none: list.items.length === 0 && !after,
    seesPrices: told.seesPrices,
    lead:
      out.length === 0
        ? 'Nothing is out.'
        : `${capitalised(countInWords(out.length, 'piece of work', 'pieces of work'))} out${lateInWords(late, out.length)}.`,
    anyOut: out.length > 0,
    out: table('Out now', out, told),
    list: table('All tickets, newest first', list.items, told),
    pager: {
      label: 'Tickets',
      ...(after ? { earlier: { text: 'From the newest', href: HERE } } : {}),
      ...(list.next ? { later: { text: 'Older tickets', href: `${HERE}?after=${list.next}` } } : {}),
    },
  };
};

/** The form that sends work out, or corrects a ticket. */
export const ticketFormPage = (
  form: FormModel,
  offers: {
    readonly outworkers: readonly Outworker[];
    readonly garments: readonly GarmentToCharge[];
    readonly seesPrices: boolean;
    readonly currency: string;
  },
  kept?: OutworkTicket,
): Drawn => ({
  template: 'bench/outwork/ticket-form',
  words: {
    title: kept ? `Correct ${kept.number}` : 'Send work out',
    room: 'bench',
    crumbs: [benchCrumb, outworkCrumb],
    form: { ...form, action: kept ? `${ticketUrl(kept.id)}/edit` : HERE },
    isNew: kept === undefined,
    nobody: offers.outworkers.length === 0,
    outworkers: offers.outworkers.map(({ id, name }) => ({ value: id, text: name })),
    garments: offers.garments.map(({ id, name, place, commissionNumber }) => ({
      value: id,
      text: `${commissionNumber} no. ${place}: ${name}`,
    })),
    works: [...new Set(offers.outworkers.flatMap(({ rates }) => rates.map(({ work }) => work)))].map(
      (text) => ({ text }),
    ),
    seesPrices: offers.seesPrices,
    currency: offers.currency,
    floor: LEGAL_FLOOR,
    leave: { text: 'Leave without saving', href: kept ? ticketUrl(kept.id) : HERE },
  },
});

/** One ticket, and what comes next for it. */
export const ticketPage = (
  form: FormModel,
  ticket: OutworkTicket,
  outworker: Outworker,
  told: OutworkTold & { readonly mayPay: boolean; readonly mayOpen: boolean },
): Drawn => {
  const { identity, seesPrices, today } = told;
  const money = (amount: Money): string => moneyInWords(amount, identity.locale);
  const isPaid = told.paid.has(ticket.id);
  const state = outworkState(ticket, isPaid);
  const url = ticketUrl(ticket.id);
  return {
    template: 'bench/outwork/ticket',
    words: {
      title: ticket.number,
      room: 'bench',
      crumbs: [benchCrumb, outworkCrumb],
      lead: `${ticket.work}, ${countInWords(ticket.pieces, 'piece')}, with ${outworker.name}: ${stateInWords(ticket, isPaid, today)}.`,
      facts: [
        {
          label: 'Garment',
          text: ticket.garmentName,
          ...(told.mayOpen
            ? { href: `/commissions/${ticket.commissionId}/garments/${ticket.garmentId}` }
            : {}),
        },
        { label: 'Out', text: dateInWords(ticket.outOn) },
        { label: 'Due', text: ticket.dueOn ? dateInWords(ticket.dueOn) : '' },
        { label: 'Back', text: ticket.backOn ? dateInWords(ticket.backOn) : '' },
        {
          label: 'Checked',
          text: ticket.checkedOn ? dateInWords(ticket.checkedOn) : '',
          note: ticket.found,
        },
        ...(seesPrices
          ? [
              { label: 'One piece', text: money(ticket.pieceRate) },
              { label: 'Comes to', text: money(outworkComesTo(ticket)) },
              { label: 'Reached at', text: outworker.reachedAt },
            ]
          : []),
        { label: 'Notes', text: ticket.notes },
      ].filter(({ text }) => text !== ''),
      isOut: state === 'out',
      isBack: state === 'back',
      form: { ...form, action: `${url}/${state === 'out' ? 'back' : 'checked'}` },
      mayCorrect: !isPaid,
      editUrl: `${url}/edit`,
      pdf: `${url}/ticket.pdf`,
      pay:
        told.mayPay && !isPaid && ticket.backOn && !outworkComesTo(ticket).isZero()
          ? `/papers/money-out/pay?about=outwork%2F${ticket.id}`
          : '',
    },
  };
};

/** Everybody who takes work out. */
export const outworkersPage = (outworkers: readonly Outworker[]): PageWords => ({
  title: 'Outworkers',
  room: 'bench',
  crumbs: [benchCrumb, outworkCrumb],
  any: outworkers.length > 0,
  list: {
    caption: 'Outworkers by name',
    quietCaption: true,
    columns: [{ text: 'Name' }, { text: 'Work' }, { text: 'Reached at' }],
    rows: outworkers.map((one) => ({
      cells: [
        { text: one.name, href: outworkerUrl(one.id) },
        { text: one.rates.map(({ work }) => work).join(', ') },
        { text: one.reachedAt },
      ],
    })),
  },
});

/** The form for an outworker and their piece rates. */
export const outworkerFormPage = (form: FormModel, currency: string, kept?: Outworker): Drawn => {
  const filled = Object.keys(form.values).filter((name) => /^rates\.\d+\.work$/.test(name)).length;
  return {
    template: 'bench/outwork/outworker',
    words: {
      title: kept ? kept.name : 'A new outworker',
      room: 'bench',
      crumbs: [benchCrumb, outworkCrumb, { text: 'Outworkers', href: `${HERE}/workers` }],
      form: { ...form, action: kept ? outworkerUrl(kept.id) : `${HERE}/workers` },
      grid: {
        caption: 'Piece rates',
        columns: [
          { text: 'Kind of work', wide: true },
          { text: `One piece, ${currency}`, figure: true },
        ],
        rows: gridRows('rates', RATE_FIELDS, filled, filled === 0 ? 5 : 3),
      },
      floor: LEGAL_FLOOR,
      leave: { text: 'Leave without saving', href: `${HERE}/workers` },
    },
  };
};
