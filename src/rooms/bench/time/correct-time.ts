import type { BenchEntry } from '../../../domain/bench/bench-entry.js';
import { splitSitting } from '../../../domain/bench/splitting.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import type { Minutes } from '../../../domain/kernel/minutes.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { dateInWords } from '../../../web/words/dates.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { personWorking } from '../work/who-works.js';
import { workInWords } from '../work/work-words.js';
import { subjectOf, type WorkSaid } from '../work/worked-on.js';
import { keepTime, type TimeSaid } from './add-time.js';

const takeBack = async (writing: Writing, id: string, reason: string): Promise<BenchEntry> => {
  const entry = await benchBook.one(writing, id);
  if (entry.garmentId) await garmentMarkBook.mustBeOpen(writing, entry.garmentId);
  await benchBook.reverse(writing, id, reason);
  return entry;
};

/**
 * Takes minutes back by as many below nought, and writes them anew where that is said. Both stay in sight.
 *
 * @throws Conflict where they were taken back before, or the garment is closed
 */
export const reverseTime = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  reason: string,
  instead?: TimeSaid,
): Promise<Done<BenchEntry | undefined>> =>
  unit.write(visit, async (writing) => {
    const before = await benchBook.one(writing, id);
    const person = await personWorking(writing, before.personId);
    await takeBack(writing, id, reason);
    const anew = instead && (await keepTime(writing, person, { note: reason, ...instead }, 'correction'));
    const was = `${minutesInWords(before.minutes)} of ${workInWords(before)} on ${dateInWords(before.on)}`;
    const now = anew ? ` and wrote ${minutesInWords(anew.minutes)} of ${workInWords(anew)} instead` : '';
    writing.says(`Took back ${was}${now}`, subjectOf(before));
    return anew;
  });

/** One sitting over several pieces of work. */
export type SplitSaid = {
  readonly person?: string | undefined;
  /** The entry it was kept as; none where it was not kept yet. */
  readonly entry?: string | undefined;
  readonly minutes: Minutes;
  readonly on: CalendarDate;
  readonly evenIfOdd?: boolean | undefined;
  readonly parts: readonly (WorkSaid & { readonly minutes?: Minutes | undefined })[];
};

/** Keeps one sitting split over several pieces of work; what it was kept as before is taken back in the same act. */
export const splitTime = (unit: UnitOfWork, visit: Visit, said: SplitSaid): Promise<Done<BenchEntry[]>> =>
  unit.write(visit, async (writing) => {
    const before = said.entry ? await benchBook.one(writing, said.entry) : undefined;
    const person = await personWorking(writing, before?.personId ?? said.person);
    const total = before?.minutes ?? said.minutes;
    if (said.parts.length < 2) throw Invalid.field('parts', 'Name at least two pieces of work.');
    const shares = splitSitting(
      total,
      said.parts.map(({ minutes }) => minutes),
    );
    if (before) await takeBack(writing, before.id, 'Split over several pieces of work');
    const entries: BenchEntry[] = [];
    for (const [index, part] of said.parts.entries()) {
      const minutes = shares[index] ?? 0;
      const on = before?.on ?? said.on;
      const time = { ...part, minutes, on, evenIfOdd: said.evenIfOdd };
      entries.push(await keepTime(writing, person, time, 'split', `parts.${index}.minutes`));
    }
    const [first] = entries;
    writing.says(
      `Split ${minutesInWords(total)} over ${entries.map((entry) => workInWords(entry)).join(', ')}`,
      first ? subjectOf(first) : 'bench',
    );
    return entries;
  });
