import {
  daysLate,
  type OutworkTicket,
  outworkComesTo,
  outworkState,
} from '../../../domain/outwork/outwork.js';
import { moneyOutBook } from '../../../storage/books/money-out/money-out-book.js';
import { outworkerBook } from '../../../storage/books/outwork/outworker-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import type { SignedIn } from '../../../web/visit.js';
import type { OutworkTold } from './outwork.page.js';

/** What is told beside some tickets: whom they are with, which are paid, and whether prices show. */
export const outworkTold = async (
  reading: Reading,
  clock: Clock,
  { seesPrices }: Pick<SignedIn, 'seesPrices'>,
  tickets: readonly OutworkTicket[],
): Promise<OutworkTold> => {
  const { identity } = await studioBook.the(reading);
  const paid = await moneyOutBook.ofTickets(
    reading,
    tickets.map(({ id }) => id),
  );
  return {
    names: new Map((await outworkerBook.all(reading)).map(({ id, name }) => [id, name])),
    paid: new Set(paid.keys()),
    today: todayIn(clock, identity.zone),
    seesPrices,
    identity,
  };
};

/** A ticket for programs; without prices for a hand that sees none. */
export const ticketInJson = (ticket: OutworkTicket, told: OutworkTold): object => {
  const { pieceRate, ...plain } = ticket;
  return {
    ...plain,
    outworker: told.names.get(ticket.outworkerId) ?? '',
    state: outworkState(ticket, told.paid.has(ticket.id)),
    daysLate: daysLate(ticket, told.today),
    ...(told.seesPrices ? { pieceRate, comesTo: outworkComesTo(ticket) } : {}),
  };
};
