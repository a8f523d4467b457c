import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { totalsByKind } from '../../../domain/money-out/money-out.js';
import { outworkComesTo } from '../../../domain/outwork/outwork.js';
import { moneyOutBook } from '../../../storage/books/money-out/money-out-book.js';
import { overheadOfYear } from '../../../storage/books/money-out/overhead-year.js';
import { type Owed, owedBills, owedToMerchants } from '../../../storage/books/money-out/owed.js';
import { billSubject, paidOutBook } from '../../../storage/books/money-out/paid-out-book.js';
import { outworkBook, outworkSubject } from '../../../storage/books/outwork/outwork-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading } from '../../../storage/session.js';
import type { MoneyOutTold } from './money-out.page.js';

const owedToOutworkers = async (reading: Reading): Promise<Owed[]> =>
  (await outworkBook.owed(reading)).map((ticket) => ({
    about: outworkSubject(ticket.id),
    to: ticket.outworkerName,
    on: ticket.backOn ?? ticket.outOn,
    paperNumber: ticket.number,
    amount: outworkComesTo(ticket),
  }));

/** Gathers what is owed, what was spent in a span, overhead of the year, and a page of bills. */
export const gatherMoneyOut = async (
  reading: Reading,
  today: CalendarDate,
  span: readonly [CalendarDate, CalendarDate],
  after = '',
  limit = 30,
): Promise<MoneyOutTold> => {
  const list = await moneyOutBook.list(reading, limit, after);
  const ids = list.items.map(({ id }) => id);
  return {
    merchants: await owedToMerchants(reading),
    outworkers: await owedToOutworkers(reading),
    bills: await owedBills(reading),
    totals: totalsByKind(await moneyOutBook.between(reading, ...span)),
    span,
    year: await overheadOfYear(reading, today),
    list,
    paid: await paidOutBook.of(reading, ids.map(billSubject)),
    reversed: new Set((await moneyOutBook.reversalsOf(reading, ids)).keys()),
    after,
    identity: (await studioBook.the(reading)).identity,
  };
};
