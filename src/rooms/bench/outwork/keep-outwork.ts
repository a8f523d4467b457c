import { foldForSearch } from '../../../domain/clients/client.js';
import { type CalendarDate, dateIn } from '../../../domain/kernel/calendar-date.js';
import { Conflict, Invalid, NotFound } from '../../../domain/kernel/errors.js';
import type { Money } from '../../../domain/kernel/money.js';
import { checkOutwork, type Outworker, type OutworkTicket } from '../../../domain/outwork/outwork.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { moneyOutBook } from '../../../storage/books/money-out/money-out-book.js';
import { outworkBook, outworkSubject } from '../../../storage/books/outwork/outwork-book.js';
import { type OutworkerWords, outworkerBook } from '../../../storage/books/outwork/outworker-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { countInWords } from '../../../web/words/counts.js';
import type { OutworkCorrected, OutworkSaid } from './outwork.form.js';

const todayOf = async (writing: Writing): Promise<CalendarDate> =>
  dateIn(writing.at, (await studioBook.the(writing)).identity.zone);

/** The rate that was said, or that of the outworker's list for such work. */
const rateOf = (said: Money | undefined, work: string, { name, rates }: Outworker): Money => {
  const listed = rates.find((rate) => foldForSearch(rate.work) === foldForSearch(work));
  const rate = said ?? listed?.price;
  if (rate) return rate;
  throw Invalid.field('work', `${name} has no piece rate for this work. Write what one piece is paid.`);
};

const beside = async <T>(field: string, find: () => Promise<T>, missing: string): Promise<T> => {
  try {
    return await find();
  } catch (error) {
    if (error instanceof NotFound) throw Invalid.field(field, missing);
    if (error instanceof Conflict) throw Invalid.field(field, error.message);
    throw error;
  }
};

/** Sends work out under the next number. @throws Invalid per field; the garment must be open */
export const sendOut = (unit: UnitOfWork, visit: Visit, said: OutworkSaid): Promise<Done<OutworkTicket>> =>
  unit.write(visit, async (writing) => {
    const who = await beside(
      'outworker',
      () => outworkerBook.one(writing, said.outworker),
      'There is no such outworker.',
    );
    const garment = await beside(
      'garment',
      () => garmentBook.one(writing, said.garment),
      'There is no such garment.',
    );
    await beside('garment', () => garmentMarkBook.mustBeOpen(writing, garment.id), '');
    const { work, pieces, outOn, dueOn, notes } = said;
    const words = {
      outworkerId: who.id,
      commissionId: garment.commissionId,
      garmentId: garment.id,
      garmentName: garment.name,
      work,
      pieces,
      pieceRate: rateOf(said.pieceRate, work, who),
      outOn,
      dueOn,
      backOn: undefined,
      checkedOn: undefined,
      found: '',
      notes,
    };
    const ticket = await outworkBook.open(writing, checkOutwork(words, await todayOf(writing)));
    const count = countInWords(pieces, 'piece');
    writing.says(`Sent out ${ticket.number}: ${work}, ${count}, to ${who.name}`, outworkSubject(ticket.id));
    return ticket;
  });

const notPaid = async (writing: Writing, id: string): Promise<OutworkTicket> => {
  const ticket = await outworkBook.one(writing, id);
  if ((await moneyOutBook.ofTickets(writing, [id])).size > 0)
    throw new Conflict('This work is paid, so its ticket stays as it is. Reverse the bill first.', 'paid');
  return ticket;
};

/** @throws Stale when somebody changed it meanwhile; Conflict once it is paid */
export const correctOutwork = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: OutworkCorrected,
  seen?: number,
): Promise<Done<OutworkTicket>> =>
  unit.write(visit, async (writing) => {
    const kept = await notPaid(writing, id);
    const who = await outworkerBook.one(writing, kept.outworkerId);
    const sameWork = foldForSearch(kept.work) === foldForSearch(said.work);
    const pieceRate = said.pieceRate ?? (sameWork ? kept.pieceRate : rateOf(undefined, said.work, who));
    const ticket = checkOutwork({ ...kept, ...said, dueOn: said.dueOn, pieceRate }, await todayOf(writing));
    const corrected = await outworkBook.correct(writing, ticket, seen);
    writing.says(`Corrected ${ticket.number}`, outworkSubject(id));
    return corrected;
  });

/** The work came back; from now on it is owed. @throws Conflict when it is back already */
export const bringBackOutwork = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: { readonly backOn: CalendarDate },
  seen?: number,
): Promise<Done<OutworkTicket>> =>
  unit.write(visit, async (writing) => {
    const kept = await outworkBook.one(writing, id);
    if (kept.backOn) throw new Conflict('This work is back already.', 'back-already');
    const ticket = checkOutwork({ ...kept, ...said }, await todayOf(writing));
    const back = await outworkBook.correct(writing, ticket, seen);
    writing.says(`${ticket.number} came back: ${ticket.work}`, outworkSubject(id));
    return back;
  });

/** The work was looked over. @throws Invalid while it is out; Conflict when it was checked */
export const checkBack = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: { readonly checkedOn: CalendarDate; readonly found: string },
  seen?: number,
): Promise<Done<OutworkTicket>> =>
  unit.write(visit, async (writing) => {
    const kept = await outworkBook.one(writing, id);
    if (kept.checkedOn) throw new Conflict('This work was checked already.', 'checked-already');
    const ticket = checkOutwork({ ...kept, ...said }, await todayOf(writing));
    const checked = await outworkBook.correct(writing, ticket, seen);
    writing.says(`Checked ${ticket.number}${said.found ? `: ${said.found}` : ''}`, outworkSubject(id));
    return checked;
  });

export const outworkerSubject = (id: string): string => `outworker/${id}`;

export const addOutworker = (
  unit: UnitOfWork,
  visit: Visit,
  words: OutworkerWords,
): Promise<Done<Outworker>> =>
  unit.write(visit, async (writing) => {
    const outworker = await outworkerBook.add(writing, words);
    writing.says(`Added the outworker ${outworker.name}`, outworkerSubject(outworker.id));
    return outworker;
  });

/** Work that is out keeps the rate it went out at. @throws Stale when somebody corrected it meanwhile */
export const correctOutworker = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  words: OutworkerWords,
  seen?: number,
): Promise<Done<Outworker>> =>
  unit.write(visit, async (writing) => {
    const outworker = await outworkerBook.correct(writing, id, words, seen);
    writing.says(`Corrected the outworker ${outworker.name}`, outworkerSubject(id));
    return outworker;
  });
