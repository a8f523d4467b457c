import type { CalendarDate } from '../kernel/calendar-date.js';

/** Where an enquiry stands. */
export const ENQUIRY_STATES = ['waiting', 'invited', 'commissioned', 'declined', 'lapsed'] as const;
export type EnquiryState = (typeof ENQUIRY_STATES)[number];

export const ENQUIRY_WORDS: Readonly<Record<EnquiryState, string>> = {
  waiting: 'on the waiting list',
  invited: 'invited to come',
  commissioned: 'became a commission',
  declined: 'declined kindly',
  lapsed: 'not heard of again',
};

/** Somebody asked for something to be made. No more is kept of them than it takes to answer. */
export type Enquiry = {
  readonly id: string;
  readonly version: number;
  readonly name: string;
  /** One telephone number or address. */
  readonly reachedAt: string;
  readonly what: string;
  readonly askedOn: CalendarDate;
  readonly wantedBy: CalendarDate | undefined;
  readonly state: EnquiryState;
  /** When the next step is to be taken. */
  readonly nextOn: CalendarDate | undefined;
  readonly notes: string;
  readonly clientId: string | undefined;
  readonly commissionId: string | undefined;
};

/** Does it still wait for somebody? */
export const isOpenEnquiry = ({ state }: Pick<Enquiry, 'state'>): boolean =>
  state === 'waiting' || state === 'invited';

/**
 * The waiting list: a next step whose day has come first, the oldest of them first; then in the order in which people asked.
 *
 * @param enquiries open ones, in any order
 * @returns a new list
 * @see test/domain/clients/enquiry.test.ts
 */
export const inTurn = <T extends Pick<Enquiry, 'id' | 'askedOn' | 'nextOn'>>(
  enquiries: readonly T[],
  today: CalendarDate,
): T[] => {
  const due = ({ nextOn }: T): string => (nextOn && nextOn <= today ? nextOn : '9999');
  return enquiries.toSorted(
    (a, b) => due(a).localeCompare(due(b)) || a.askedOn.localeCompare(b.askedOn) || a.id.localeCompare(b.id),
  );
};

/**
 * A kind refusal, to be copied and changed. It gives no reason that was not said, and promises nothing.
 *
 * @param enquiry whose it is
 * @param house who signs
 * @returns lines of plain text
 */
export const refusalText = (
  { name, what }: Pick<Enquiry, 'name' | 'what'>,
  house: { readonly maker: string; readonly studio: string },
): string =>
  [
    `Dear ${name},`,
    '',
    `Thank you for asking us about ${what}. We have thought about it, and we cannot take it on: we would not do it the justice it deserves in the time we have.`,
    '',
    'We are glad that you thought of us, and wish you good hands for it.',
    '',
    'With kind regards,',
    ...[house.maker, house.studio].filter((line, place, all) => line !== '' && all.indexOf(line) === place),
  ].join('\n');
