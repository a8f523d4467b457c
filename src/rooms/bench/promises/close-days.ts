import { movedPromises, type Simulated } from '../../../domain/estimating/promise/simulate.js';
import { addDays, type CalendarDate, daysBetween } from '../../../domain/kernel/calendar-date.js';
import { Conflict, type FieldTrouble, Invalid } from '../../../domain/kernel/errors.js';
import { closedDayBook } from '../../../storage/books/bench/closed-day-book.js';
import { openGarments } from '../../../storage/books/bench/open-garments.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { countInWords } from '../../../web/words/counts.js';
import { dateInWords, dayAndMonthInWords } from '../../../web/words/dates.js';
import { type Backlog, datesOf, datesWithout, type PromisedGarment } from './gather-promises.js';

/** Days the workroom is closed, from one to another, and why, for the studio's own eyes. */
export type SpanSaid = { readonly from: CalendarDate; readonly to: CalendarDate; readonly words: string };

/** A garment that gets another promised date. */
export type MoveSaid = {
  readonly garmentId: string;
  readonly dueOn: CalendarDate;
  /** The version it was looked at; none where nobody looked. */
  readonly seen: number | undefined;
};

const LONGEST = 366;
const FURTHEST = 731;

/** The days of a span, checked. @throws Invalid per field */
export const daysOfSpan = ({ from, to }: SpanSaid, today: CalendarDate): CalendarDate[] => {
  const wrong = (field: string, text: string): never => {
    throw Invalid.field(field, text);
  };
  if (to < from) wrong('to', 'The last day is before the first.');
  if (daysBetween(from, to) >= LONGEST) wrong('to', 'At most a year in one go.');
  if (daysBetween(to, today) > 91) wrong('to', 'This is long past; it changes nothing any more.');
  if (daysBetween(today, to) > FURTHEST) wrong('to', 'This is more than two years away.');
  return Array.from({ length: daysBetween(from, to) + 1 }, (_, place) => addDays(from, place));
};

/** A promise that would move at 4 in 5. */
export type WouldMove = {
  readonly one: PromisedGarment;
  readonly before: CalendarDate;
  readonly after: CalendarDate;
  /** Could it be kept before, and not any more? Or could it not be kept before either. */
  readonly isLate: boolean;
  /** What would be promised instead. */
  readonly proposed: CalendarDate;
};

/** Which promises would move if these days were closed. */
export const whatMoves = async (
  reading: Reading,
  backlog: Backlog,
  days: readonly CalendarDate[],
): Promise<{ readonly moves: WouldMove[]; readonly after: Simulated }> => {
  const before = await datesOf(reading, backlog);
  const after = datesWithout(backlog, days);
  const byId = new Map(backlog.works.map((one) => [one.garment.id, one]));
  const moves = movedPromises([...byId.keys()], before, after, 0.8).flatMap((moved): WouldMove[] => {
    const one = byId.get(moved.ref);
    if (!one) return [];
    const isLate = one.dueOn !== undefined && moved.after > one.dueOn;
    return [{ one, before: moved.before, after: moved.after, isLate, proposed: moved.after }];
  });
  return { moves, after };
};

/**
 * Closes the days and moves the chosen promises, all in one act.
 *
 * @returns the id under which its letters lie ready
 * @throws Invalid per field; Stale when a garment was changed since it was looked at; Conflict when all of it was so already
 */
export const closeDays = (
  unit: UnitOfWork,
  visit: Visit,
  clock: Clock,
  said: SpanSaid,
  moves: readonly MoveSaid[],
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const { identity } = await studioBook.the(writing);
    const today = todayIn(clock, identity.zone);
    const days = daysOfSpan(said, today);
    const open = new Map((await openGarments(writing)).map((garment) => [garment.id, garment]));
    mustBeMeant(moves, open, today);
    const { id, days: closed } = await closedDayBook.close(writing, days, said.words);
    let moved = 0;
    for (const { garmentId, dueOn, seen } of moves) {
      const garment = await garmentBook.one(writing, garmentId);
      const was = garment.dueOn ?? open.get(garmentId)?.wantedBy ?? undefined;
      if (was === dueOn) continue;
      await garmentBook.correct(writing, { ...garment, dueOn }, seen);
      await closedDayBook.move(writing, id, { garmentId, was: was ?? dueOn, now: dueOn });
      moved += 1;
    }
    if (closed.length === 0 && moved === 0)
      throw new Conflict('These days were closed already, and no promise would move.', 'closed-already');
    const promises = moved === 0 ? '' : `; ${countInWords(moved, 'promise')} moved`;
    writing.says(`Closed ${spanInWords(said)}: ${said.words}${promises}`, 'promises');
    return id;
  });

/** Opens the days of a span again. Promises that moved stay where they are. */
export const openAgain = (unit: UnitOfWork, visit: Visit, spanId: string): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const span = await closedDayBook.open(writing, spanId);
    writing.says(`Opened ${spanInWords(span)} again`, 'promises');
    return span.id;
  });

/** `2 March 2026`, or `2 March to 8 March 2026`. */
export const spanInWords = ({ from, to }: Pick<SpanSaid, 'from' | 'to'>): string => {
  if (from === to) return dateInWords(from);
  const first = from.slice(0, 4) === to.slice(0, 4) ? dayAndMonthInWords(from) : dateInWords(from);
  return `${first} to ${dateInWords(to)}`;
};

const mustBeMeant = (
  moves: readonly MoveSaid[],
  open: ReadonlyMap<string, unknown>,
  today: CalendarDate,
): void => {
  const troubles = moves.flatMap(({ garmentId, dueOn }): FieldTrouble[] => {
    const field = `date.${garmentId}`;
    if (!open.has(garmentId)) return [{ field, text: 'This garment is not being made any more.' }];
    if (dueOn < today) return [{ field, text: 'Promise a day that is still to come.' }];
    return daysBetween(today, dueOn) > FURTHEST * 5
      ? [{ field, text: 'This is more than ten years away.' }]
      : [];
  });
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'This cannot be kept.', troubles);
};
