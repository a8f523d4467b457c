import {
  type CounterLine,
  type CounterTicket,
  checkCounter,
} from '../../../domain/counter/counter-ticket.js';
import { type CalendarDate, dateIn } from '../../../domain/kernel/calendar-date.js';
import { Conflict, type FieldTrouble, Invalid } from '../../../domain/kernel/errors.js';
import { counterBook, counterSubject } from '../../../storage/books/counter/counter-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Clock } from '../../../storage/clock.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { counterPrices } from '../../../web/rates/counter-prices.js';
import type { CounterSaid, PlainCounterSaid } from './counter.form.js';

const todayOf = async (writing: Writing): Promise<CalendarDate> =>
  dateIn(writing.at, (await studioBook.the(writing)).identity.zone);

/**
 * Jobs as they were said, named and priced by the list where it says so.
 *
 * @param mustPrice a job needs a price; a hand that sees no prices leaves it open
 * @throws Invalid per line
 */
const linesOf = async (
  writing: Writing,
  clock: Clock,
  said: CounterSaid['lines'],
  mustPrice: boolean,
): Promise<CounterLine[]> => {
  const list = new Map((await counterPrices(writing, clock)).map((one) => [one.id, one]));
  const troubles: FieldTrouble[] = [];
  const lines = said.map(({ fromList, job, price }, place): CounterLine => {
    const listed = list.get(fromList);
    if (fromList && !listed)
      troubles.push({ field: `lines.${place}.fromList`, text: 'There is no such job on the list.' });
    const line = { job: job || (listed?.job ?? ''), price: price ?? listed?.price };
    if (mustPrice && !line.price)
      troubles.push({ field: `lines.${place}.price`, text: 'Write the price; 0 where it is a kindness.' });
    return line;
  });
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'Look at the jobs again.', troubles);
  return lines;
};

/** Takes work in over the counter under the next number. @throws Invalid per field */
export const takeIn = (
  unit: UnitOfWork,
  visit: Visit,
  clock: Clock,
  said: CounterSaid,
  seesPrices: boolean,
): Promise<Done<CounterTicket>> =>
  unit.write(visit, async (writing) => {
    const words = {
      ...said,
      readyBy: said.readyBy,
      lines: await linesOf(writing, clock, said.lines, seesPrices),
      currency: (await studioBook.the(writing)).identity.currency,
      readyOn: undefined,
      collectedOn: undefined,
      collectedBy: '',
    };
    const ticket = await counterBook.open(writing, checkCounter(words, await todayOf(writing)));
    writing.says(`Took in ${ticket.number}: ${ticket.what}`, counterSubject(ticket.id));
    return ticket;
  });

/** @param said without jobs from a hand that sees no prices @throws Stale when somebody changed it meanwhile */
export const correctTicket = (
  unit: UnitOfWork,
  visit: Visit,
  clock: Clock,
  id: string,
  said: CounterSaid | PlainCounterSaid,
  seen?: number,
): Promise<Done<CounterTicket>> =>
  unit.write(visit, async (writing) => {
    const kept = await counterBook.one(writing, id);
    const lines = 'lines' in said ? await linesOf(writing, clock, said.lines, true) : kept.lines;
    const ticket = checkCounter({ ...kept, ...said, readyBy: said.readyBy, lines }, await todayOf(writing));
    const corrected = await counterBook.correct(writing, ticket, seen);
    writing.says(`Corrected ${kept.number}`, counterSubject(id));
    return corrected;
  });

/** @throws Conflict when it is ready or collected already */
export const markReady = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: { readonly readyOn: CalendarDate },
  seen?: number,
): Promise<Done<CounterTicket>> =>
  unit.write(visit, async (writing) => {
    const kept = await counterBook.one(writing, id);
    if (kept.readyOn || kept.collectedOn) throw new Conflict('This is ready already.', 'ready-already');
    const ready = await counterBook.correct(
      writing,
      checkCounter({ ...kept, ...said }, await todayOf(writing)),
      seen,
    );
    writing.says(`${kept.number} is ready: ${kept.what}`, counterSubject(id));
    return ready;
  });

/** Somebody collected it; what was not marked as ready is ready by that. @throws Conflict when it was collected before */
export const markCollected = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: { readonly collectedOn: CalendarDate; readonly collectedBy: string },
  seen?: number,
): Promise<Done<CounterTicket>> =>
  unit.write(visit, async (writing) => {
    const kept = await counterBook.one(writing, id);
    if (kept.collectedOn) throw new Conflict('This was collected already.', 'collected-already');
    const words = { ...kept, ...said, readyOn: kept.readyOn ?? said.collectedOn };
    const gone = await counterBook.correct(writing, checkCounter(words, await todayOf(writing)), seen);
    writing.says(`${kept.number} was collected by ${said.collectedBy}`, counterSubject(id));
    return gone;
  });
