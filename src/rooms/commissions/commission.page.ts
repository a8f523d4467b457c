import type { Client } from '../../domain/clients/client.js';
import type { Commission } from '../../domain/commissions/commission.js';
import { MOST_GARMENTS } from '../../domain/commissions/commission.js';
import type { PlannedGarment } from '../../domain/commissions/garment.js';
import { type GarmentStanding, STANDING_WORDS } from '../../domain/commissions/garment-mark.js';
import { planMinutes } from '../../domain/making/plan-minutes.js';
import type { Link } from '../../printing/templates/page-model.js';
import type { ListedInvoice } from '../../storage/books/papers/invoice-book.js';
import type { PageWords } from '../../web/reply.js';
import { moneyInWords } from '../../web/words/amounts.js';
import { countInWords } from '../../web/words/counts.js';
import { dateInWords } from '../../web/words/dates.js';
import { minutesInWords } from '../../web/words/durations.js';

export const commissionsCrumb: Link = { text: 'Commissions', href: '/commissions' };
export const commissionUrl = (id: string): string => `/commissions/${id}`;
export const garmentUrl = (commissionId: string, id: string): string =>
  `/commissions/${commissionId}/garments/${id}`;
export const commissionCrumbs = ({ id, number }: Pick<Commission, 'id' | 'number'>): Link[] => [
  commissionsCrumb,
  { text: number, href: commissionUrl(id) },
];

/** Everything a commission's page tells. */
export type CommissionTold = {
  /** The newest quote that went out, and how it stands; none before the first. */
  readonly quote: { readonly id: string; readonly words: string } | undefined;
  /** What was asked for and given back, newest first. */
  readonly invoices: readonly ListedInvoice[];
  readonly locale: string;
  readonly commission: Commission;
  readonly people: ReadonlyMap<string, Client>;
  readonly garments: readonly PlannedGarment[];
  /** Where each garment stands; those without a mark are to be made. */
  readonly standings: ReadonlyMap<string, GarmentStanding>;
  /** Each garment's price before tax, whether it is agreed, and the price of all; none while they cannot be worked out. */
  readonly prices: ReadonlyMap<string, { readonly text: string; readonly note?: string }>;
  readonly total: string | undefined;
  readonly pricing: readonly { readonly label: string; readonly text: string }[];
  /** Its extras as a table; none while there are none. */
  readonly extras: object | undefined;
};

/** One commission: who, when, its garments, what comes next, how it is priced. */
export const commissionPage = (told: CommissionTold): PageWords => {
  const { commission, people, garments } = told;
  const url = commissionUrl(commission.id);
  return {
    title: commission.title || commission.number,
    tab: commission.number,
    room: 'commissions',
    crumbs: [commissionsCrumb],
    url,
    about: `commission/${commission.id}`,
    number: commission.number,
    facts: factsOf(commission, people),
    garments: {
      caption: 'Garments',
      columns: [
        { text: 'No.' },
        { text: 'Garment' },
        { text: 'Wearer' },
        { text: 'Due' },
        { text: 'Planned', figure: true },
        { text: 'Price', figure: true },
      ],
      rows: garments.map(({ garment, plan }) => ({
        cells: [
          { text: String(garment.place) },
          {
            text: garment.name,
            href: garmentUrl(commission.id, garment.id),
            note: STANDING_WORDS[told.standings.get(garment.id) ?? 'to-make'],
          },
          { text: people.get(garment.wearerId)?.name ?? '' },
          { text: garment.dueOn ? dateInWords(garment.dueOn) : '' },
          { text: plan.length === 0 ? 'no plan yet' : minutesInWords(planMinutes(plan).minutes) },
          told.prices.get(garment.id) ?? { text: '' },
        ],
      })),
      ...(told.total === undefined ? {} : { foot: [footOf(told)] }),
    },
    mayAdd: garments.length < MOST_GARMENTS,
    next: nextOf(told),
    pricing: [...told.pricing],
    papers: told.invoices.map((invoice) => ({
      text: `${invoice.number}, ${dateInWords(invoice.issuedOn)}`,
      href: `/papers/${invoice.id}`,
      amount: moneyInWords(
        invoice.kind === 'credit-note' ? invoice.total.negated() : invoice.total,
        told.locale,
      ),
    })),
    anyExtras: told.extras !== undefined,
    extras: told.extras ?? {},
  };
};

const footOf = ({ commission, garments, total }: CommissionTold): object => {
  const minutes = garments.reduce((sum, { plan }) => sum + planMinutes(plan).minutes, 0);
  return {
    cells: [
      { text: '' },
      {
        text: 'Together',
        ...(commission.discount.isZero() ? {} : { note: 'less the discount' }),
      },
      { text: '' },
      { text: '' },
      { text: minutesInWords(minutes) },
      { text: total ?? '' },
    ],
  };
};

const factsOf = (commission: Commission, people: ReadonlyMap<string, Client>): object[] => {
  const nameOf = (id: string): string => people.get(id)?.name ?? '';
  return [
    { label: 'Client', text: nameOf(commission.clientId), href: `/clients/${commission.clientId}` },
    ...(commission.payerId === commission.clientId
      ? []
      : [{ label: 'Payer', text: nameOf(commission.payerId), href: `/clients/${commission.payerId}` }]),
    { label: 'Opened', text: dateInWords(commission.openedOn) },
    ...(commission.wantedBy ? [{ label: 'Wanted by', text: dateInWords(commission.wantedBy) }] : []),
    ...(commission.orderNumber ? [{ label: 'Order number', text: commission.orderNumber }] : []),
    ...(commission.notes ? [{ label: 'Notes', text: commission.notes }] : []),
  ];
};

/** What comes next, in words, with where to do it. */
const nextOf = ({ commission, garments, quote }: CommissionTold): { text: string; step: Link } => {
  if (quote) return { text: quote.words, step: { text: 'Look at the quote', href: `/papers/${quote.id}` } };
  const empty = garments.find(({ plan }) => plan.length === 0);
  if (empty)
    return {
      text: `The ${empty.garment.name} has no plan yet, so it has no price.`,
      step: { text: 'Write its plan', href: garmentUrl(commission.id, empty.garment.id) },
    };
  for (const { garment, plan } of garments) {
    const waiting = planMinutes(plan).needMinutes.length;
    if (waiting > 0)
      return {
        text: `In the plan of the ${garment.name}, ${countInWords(waiting, 'operation')} still ${waiting === 1 ? 'needs' : 'need'} minutes.`,
        step: { text: 'Say how long', href: garmentUrl(commission.id, garment.id) },
      };
  }
  const bare = garments.find(({ materials }) => materials.length === 0);
  return {
    text: `Every garment has its plan.${bare ? ` No cloth or other material is in the sum of the ${bare.garment.name}.` : ''} Look the sums over, then make the quote.`,
    step: { text: 'Quotes', href: `${commissionUrl(commission.id)}/quotes` },
  };
};
