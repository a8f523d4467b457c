import { type BenchEntry, checkWorked, type EntryWay } from '../../../domain/bench/bench-entry.js';
import type { Person } from '../../../domain/bench/person.js';
import { minutesBetween } from '../../../domain/bench/running-clock.js';
import { overlapped } from '../../../domain/bench/sitting.js';
import { standingEntries } from '../../../domain/bench/worked.js';
import { addDays, type CalendarDate, dateIn, type Instant } from '../../../domain/kernel/calendar-date.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import type { Minutes } from '../../../domain/kernel/minutes.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { Asked } from '../../../web/forms/form.js';
import { dateInWords, timeInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { personWorking } from '../work/who-works.js';
import { whatInWords, workInWords } from '../work/work-words.js';
import { everyTimeFromNowOn, subjectOf, type WorkSaid, workedOn } from '../work/worked-on.js';

/** Time somebody says they worked. */
export type TimeSaid = WorkSaid & {
  readonly minutes: Minutes;
  readonly on: CalendarDate;
  /** From when to when, where it is known. */
  readonly begunAt?: Instant | undefined;
  readonly endedAt?: Instant | undefined;
  readonly note?: string | undefined;
  /** The same work as an entry that is taken back in this act, even where its line has left the plan since. */
  readonly sameAs?: BenchEntry | undefined;
  /** "Yes, that is right" to what was odd. */
  readonly evenIfOdd?: boolean | undefined;
};

/** What the box is called that says "yes, that is right". */
export const ODD = 'evenIfOdd';

/** @param field where a question about the time is put */
const askIfOdd = async (writing: Writing, person: Person, said: TimeSaid, zone: string, field: string) => {
  if (said.evenIfOdd) return;
  const { begunAt, endedAt } = said;
  const near = await benchBook.ofPerson(writing, person.id, addDays(said.on, -1), addDays(said.on, 1));
  const others = begunAt && endedAt ? overlapped(near, { begunAt, endedAt }) : [];
  const [other] = others;
  if (other?.begunAt && other.endedAt) {
    const span = `${timeInWords(other.begunAt, zone)} to ${timeInWords(other.endedAt, zone)}`;
    const text = `From ${span} ${person.name} worked on ${whatInWords(other)}. Is it right that both went on at once?`;
    throw new Asked([{ field, text, confirmName: ODD }]);
  }
  const already = standingEntries(near)
    .filter(({ on }) => on === said.on)
    .reduce((sum, { minutes }) => sum + minutes, 0);
  if (already + said.minutes > 24 * 60) {
    const text = `That makes ${minutesInWords(already + said.minutes)} on ${dateInWords(said.on)}. Is that right?`;
    throw new Asked([{ field, text, confirmName: ODD }]);
  }
};

/**
 * Keeps minutes somebody says they worked.
 *
 * @param field where a question about the time is put
 * @throws Invalid per field; Asked where it overlaps another sitting or fills a day beyond its end; Conflict where the garment
 *   is closed
 */
export const keepTime = async (
  writing: Writing,
  person: Person,
  said: TimeSaid,
  way: EntryWay,
  field = 'minutes',
): Promise<BenchEntry> => {
  const { zone } = (await studioBook.the(writing)).identity;
  const { sameAs, cause } = said;
  const work = sameAs ? { ...sameAs, cause: cause ?? sameAs.cause } : await workedOn(writing, said);
  const today = dateIn(writing.at, zone);
  checkWorked({ minutes: said.minutes, on: said.on, garmentId: work.garmentId, away: work.away }, today);
  checkSpan(said, writing.at);
  await askIfOdd(writing, person, said, zone, field);
  if (said.everyTime) await everyTimeFromNowOn(writing, work);
  return benchBook.add(writing, {
    ...work,
    personId: person.id,
    personName: person.name,
    minutes: said.minutes,
    on: said.on,
    begunAt: said.begunAt,
    endedAt: said.endedAt,
    way,
    note: said.note ?? '',
  });
};

const checkSpan = ({ begunAt, endedAt, minutes }: TimeSaid, now: Instant): void => {
  if (Boolean(begunAt) !== Boolean(endedAt))
    throw Invalid.field('endedAt', 'Say both when it began and when it ended, or neither.');
  if (!begunAt || !endedAt) return;
  if (endedAt <= begunAt) throw Invalid.field('endedAt', 'It stopped before it was started.');
  if (endedAt > now) throw Invalid.field('endedAt', 'This is still to come.');
  if (minutes > minutesBetween(begunAt, endedAt))
    throw Invalid.field('minutes', 'More minutes than there were between the two times.');
};

/** Adds time that was forgotten. */
export const addTime = (
  unit: UnitOfWork,
  visit: Visit,
  personId: string | undefined,
  said: TimeSaid,
  way: EntryWay,
  field?: string,
): Promise<Done<BenchEntry>> =>
  unit.write(visit, async (writing) => {
    const person = await personWorking(writing, personId);
    const entry = await keepTime(writing, person, said, way, field);
    writing.says(
      `Added ${minutesInWords(entry.minutes)} of ${workInWords(entry)} on ${dateInWords(entry.on)}`,
      subjectOf(entry),
    );
    return entry;
  });

/** Adds the times of a making sheet in one act; all of them or none. */
export const addSheet = (
  unit: UnitOfWork,
  visit: Visit,
  personId: string | undefined,
  lines: readonly { readonly said: TimeSaid; readonly field: string }[],
): Promise<Done<BenchEntry[]>> =>
  unit.write(visit, async (writing) => {
    const person = await personWorking(writing, personId);
    const entries: BenchEntry[] = [];
    for (const { said, field } of lines) entries.push(await keepTime(writing, person, said, 'sheet', field));
    const [first] = entries;
    if (!first) throw Invalid.field('', 'Write a time beside at least one operation.');
    const total = entries.reduce((sum, { minutes }) => sum + minutes, 0);
    writing.says(
      `Added ${minutesInWords(total)} from the making sheet of the ${first.garmentName}`,
      subjectOf(first),
    );
    return entries;
  });
