import { garmentStanding } from '../../../domain/commissions/garment-mark.js';
import { FITTING_KIND_WORDS } from '../../../domain/fitting/fitting.js';
import { instantsOf } from '../../../domain/fitting/fitting-time.js';
import { addDays } from '../../../domain/kernel/calendar-date.js';
import { type CalendarEvent, icalendarOf } from '../../../printing/exchange/icalendar.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import {
  type FittingDay,
  fittingDays,
  type NamedGarment,
  type PromisedDay,
  promisedDays,
} from '../../../storage/books/fitting/calendar-days.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { capitalised, listInWords } from '../../../web/words/counts.js';

const DAYS_BACK = 60;
const DAYS_AHEAD = 400;

/**
 * The workroom's calendar: fittings and promised days. It travels to other people's servers, so it names garments by type
 * and number and clients by their code: no name, no address, no note.
 *
 * @returns the text of an iCalendar file; what was missed, put off or cancelled stands in it as cancelled
 * @see RFC 5545 (IETF, 2009) 3.8.1.11, 3.8.4.7, 3.8.7.4; test/rooms/house/calendar.test.ts
 */
export const calendarFeed = async (reading: Reading, clock: Clock): Promise<string> => {
  const { identity } = await studioBook.the(reading);
  const today = todayIn(clock, identity.zone);
  const [from, to] = [addDays(today, -DAYS_BACK), addDays(today, DAYS_AHEAD)];
  const types = new Map((await makingBook.types(reading)).map(({ id, name }) => [id, name]));
  const nameOf = ({ typeId, place }: NamedGarment): string =>
    `${types.get(typeId) ?? 'garment'} no. ${place}`;
  const fittings = await fittingDays(reading, from, to);
  const promises = await promisedDays(reading, from, to);
  const marks = await garmentMarkBook.ofGarments(
    reading,
    promises.map(({ id }) => id),
  );
  const stamp = clock.now();
  return icalendarOf(
    [
      ...fittings.map((fitting) => ({
        ...ofFitting(fitting, nameOf),
        ...instantsOf(fitting, identity.zone),
        stamp,
      })),
      ...promises.flatMap((promise) => {
        const standing = garmentStanding(marks.get(promise.id) ?? []);
        if (standing === 'delivered' || standing === 'closed') return [];
        return [{ ...ofPromise(promise, nameOf), stamp, cancelled: standing === 'cancelled' }];
      }),
    ],
    { name: identity.name, method: 'PUBLISH' },
  );
};

type Named = (garment: NamedGarment) => string;

/** Every change raises the version by one, undoing included, so it serves as the sequence. */
const ofFitting = (
  { id, version, kind, state, garments, clientCode }: FittingDay,
  nameOf: Named,
): Pick<CalendarEvent, 'uid' | 'summary' | 'sequence' | 'cancelled'> => ({
  uid: `fitting-${id}`,
  summary: `${capitalised(FITTING_KIND_WORDS[kind])}: ${listInWords(garments.map(nameOf))}, ${clientCode}`,
  sequence: version - 1,
  cancelled: state === 'missed' || state === 'put-off',
});

const ofPromise = (
  { id, version, dueOn, clientCode, ...garment }: PromisedDay,
  nameOf: Named,
): Pick<CalendarEvent, 'uid' | 'summary' | 'sequence'> & { on: string } => ({
  uid: `promise-${id}`,
  on: dueOn,
  summary: `Promised: ${nameOf({ id, ...garment })}, ${clientCode}`,
  sequence: Number(version) - 1,
});
