import {
  ENQUIRY_WORDS,
  type Enquiry,
  type EnquiryState,
  inTurn,
  isOpenEnquiry,
  refusalText,
} from '../../../domain/clients/enquiry.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { GarmentType } from '../../../domain/making/garment-type.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PageOf } from '../../../storage/books/client-book.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { clientsCrumb, clientUrl } from '../client.page.js';

const HERE = '/clients/enquiries';
const enquiriesCrumb = { text: 'Enquiries', href: HERE };
export const enquiryUrl = (id: string): string => `${HERE}/${id}`;

type Drawn = { template: string; words: PageWords };

const nextInWords = ({ nextOn }: Enquiry, today: CalendarDate): string => {
  if (!nextOn) return '';
  if (nextOn === today) return 'today';
  return nextOn < today ? `was due ${dateInWords(nextOn)}` : dateInWords(nextOn);
};

const rowOf = (one: Enquiry, last: string) => ({
  cells: [
    { text: one.name, href: enquiryUrl(one.id), note: one.reachedAt },
    { text: one.what, note: one.wantedBy ? `wanted by ${dateInWords(one.wantedBy)}` : '' },
    { text: dateInWords(one.askedOn) },
    { text: ENQUIRY_WORDS[one.state] },
    { text: last },
  ],
});

const COLUMNS = [{ text: 'Who' }, { text: 'What' }, { text: 'Asked' }, { text: 'How it stands' }];

/** The waiting list, and enquiries that are over. */
export const enquiriesPage = (
  open: readonly Enquiry[],
  over: PageOf<Enquiry>,
  today: CalendarDate,
  after: string,
): PageWords => ({
  title: 'Enquiries',
  room: 'clients',
  crumbs: [clientsCrumb],
  none: open.length === 0 && over.items.length === 0 && !after,
  lead:
    open.length === 0
      ? 'Nobody waits for an answer.'
      : `${capitalised(countInWords(open.length, 'person waits', 'people wait'))} for an answer or their turn.`,
  anyOpen: open.length > 0,
  open: {
    caption: 'Waiting list',
    columns: [...COLUMNS, { text: 'Next step' }],
    rows: inTurn(open, today).map((one) => rowOf(one, nextInWords(one, today))),
  },
  anyOver: over.items.length > 0,
  over: {
    caption: 'Answered, newest first',
    columns: COLUMNS,
    rows: over.items.map((one) => ({ cells: rowOf(one, '').cells.slice(0, 4) })),
  },
  pager: {
    label: 'Enquiries',
    ...(after ? { earlier: { text: 'From the newest', href: HERE } } : {}),
    ...(over.next ? { later: { text: 'Further back', href: `${HERE}?after=${over.next}` } } : {}),
  },
});

export const enquiryFormPage = (form: FormModel, kept?: Enquiry): Drawn => ({
  template: 'clients/enquiries/enquiry-form',
  words: {
    title: kept ? `Correct ${kept.name}` : 'An enquiry',
    tab: kept ? 'Correct an enquiry' : 'An enquiry',
    room: 'clients',
    crumbs: [clientsCrumb, enquiriesCrumb],
    form: { ...form, action: kept ? `${enquiryUrl(kept.id)}/edit` : HERE },
    leave: { text: 'Leave without saving', href: kept ? enquiryUrl(kept.id) : HERE },
  },
});

const MOVES: readonly { readonly state: EnquiryState; readonly text: string }[] = [
  { state: 'invited', text: 'They are invited to come' },
  { state: 'declined', text: 'It was declined kindly' },
  { state: 'lapsed', text: 'Nothing was heard again' },
  { state: 'waiting', text: 'They wait again' },
];

/** One enquiry, its answer, and the two presses that make a commission of it. */
export const enquiryPage = (
  form: FormModel,
  enquiry: Enquiry,
  types: readonly GarmentType[],
  identity: StudioIdentity,
  today: CalendarDate,
): Drawn => {
  const url = enquiryUrl(enquiry.id);
  const version = String(enquiry.version);
  const isOver = enquiry.state === 'commissioned';
  return {
    template: 'clients/enquiries/enquiry',
    words: {
      title: enquiry.name,
      tab: 'An enquiry',
      room: 'clients',
      crumbs: [clientsCrumb, enquiriesCrumb],
      lead: `${capitalised(ENQUIRY_WORDS[enquiry.state])}.`,
      facts: [
        { label: 'What', text: enquiry.what },
        { label: 'Reached at', text: enquiry.reachedAt },
        { label: 'Asked', text: dateInWords(enquiry.askedOn) },
        { label: 'Wanted by', text: enquiry.wantedBy ? dateInWords(enquiry.wantedBy) : '' },
        { label: 'Next step', text: nextInWords(enquiry, today) },
        { label: 'Notes', text: enquiry.notes },
        ...(enquiry.clientId
          ? [{ label: 'Client', text: enquiry.name, href: clientUrl(enquiry.clientId) }]
          : []),
        ...(enquiry.commissionId
          ? [{ label: 'Commission', text: enquiry.what, href: `/commissions/${enquiry.commissionId}` }]
          : []),
      ].filter(({ text }) => text !== ''),
      editUrl: `${url}/edit`,
      become:
        isOver || enquiry.clientId
          ? ''
          : { action: `${url}/client`, text: 'Make them a client', once: freshForm('').once },
      begins: !isOver && enquiry.clientId !== undefined,
      form: { ...form, action: `${url}/commission` },
      types: types
        .filter(({ isMenu }) => !isMenu)
        .map(({ id, name }) => ({ value: id, text: capitalised(name) })),
      moves: isOver
        ? []
        : MOVES.filter(({ state }) => state !== enquiry.state).map(({ state, text }) => ({
            press: {
              action: `${url}/state`,
              text,
              once: freshForm('').once,
              values: { state, version },
            },
          })),
      refusal:
        isOpenEnquiry(enquiry) || enquiry.state === 'declined'
          ? freshForm('', {
              refusal: refusalText(enquiry, { maker: identity.maker, studio: identity.name }),
            })
          : '',
    },
  };
};
