import type { BenchEntry } from '../../../domain/bench/bench-entry.js';
import type { Person } from '../../../domain/bench/person.js';
import { minutesBetween, type RunningClock } from '../../../domain/bench/running-clock.js';
import { leftRunning, mustHaveBegun, PERHAPS_LEFT_RUNNING } from '../../../domain/bench/sitting.js';
import { operationMarks, standingMarks } from '../../../domain/commissions/garment-mark.js';
import { dateIn, type Instant } from '../../../domain/kernel/calendar-date.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { clockBook } from '../../../storage/books/bench/clock-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { sittingBook } from '../../../storage/books/bench/sitting-book.js';
import type { WorkedOnWords } from '../../../storage/books/bench/worked-on-columns.js';
import { planBook } from '../../../storage/books/plan-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading, Writing } from '../../../storage/session.js';

/** The studio's zone. */
export const zoneOf = async (reading: Reading): Promise<string> =>
  (await studioBook.the(reading)).identity.zone;

/**
 * Stops a clock and keeps its minutes, whatever they are: what looks as if it was left running is kept at its full length
 * and asked about. A clock that ran less than half a minute leaves nothing.
 *
 * @throws Conflict where it would be stopped before it was started
 */
export const keepSitting = async (
  writing: Writing,
  person: Person,
  clock: RunningClock,
  at: Instant,
): Promise<BenchEntry | undefined> => {
  mustHaveBegun(clock, at);
  writing.forGood();
  await clockBook.stop(writing, person.id);
  const minutes = minutesBetween(clock.begunAt, at);
  if (minutes === 0) return undefined;
  const zone = await zoneOf(writing);
  const span = { begunAt: clock.begunAt, endedAt: at };
  const why = leftRunning(span, await sittingBook.longest(writing, clock), zone);
  return benchBook.add(writing, {
    ...clock,
    ...span,
    personName: person.name,
    minutes,
    on: dateIn(clock.begunAt, zone),
    way: 'clock',
    note: why ? PERHAPS_LEFT_RUNNING : '',
  });
};

/**
 * Puts a sitting right: the first record is taken back and stays in sight, and what it was stands in its place.
 *
 * @param stoppedAt within the sitting; its own end where it was right as it stood
 * @throws Invalid where it lies outside; Conflict where the garment is closed
 */
export const correctSitting = async (
  writing: Writing,
  entry: BenchEntry,
  stoppedAt: Instant,
): Promise<BenchEntry> => {
  const { begunAt, endedAt } = entry;
  if (!begunAt || !endedAt) throw Invalid.field('stopped', 'Nobody said when this began and ended.');
  if (stoppedAt <= begunAt || minutesBetween(begunAt, stoppedAt) < 1)
    throw Invalid.field('stopped', 'It stopped after it was started. Write a later time.');
  if (stoppedAt > endedAt)
    throw Invalid.field('stopped', 'It was stopped by then already. Write an earlier time.');
  if (entry.garmentId) await garmentMarkBook.mustBeOpen(writing, entry.garmentId);
  const isRight = stoppedAt === endedAt;
  await benchBook.reverse(writing, entry.id, isRight ? 'Looked at: it was right' : 'Was left running');
  return benchBook.add(writing, {
    ...entry,
    endedAt: stoppedAt,
    minutes: minutesBetween(begunAt, stoppedAt),
    way: 'correction',
    note: isRight ? 'Looked at: it was right' : 'Was left running',
  });
};

/** Marks work as finished: the operation, or all that is left of a whole stage. Answers how many were marked. */
export const markFinished = async (writing: Writing, work: WorkedOnWords, at: Instant): Promise<number> => {
  const { garmentId, commissionId, operationId, stage } = work;
  if (!garmentId || !commissionId) return 0;
  const { finished } = operationMarks(await garmentMarkBook.ofGarment(writing, garmentId));
  const plan = await planBook.of(writing, garmentId);
  const done = plan.filter(
    (line) => !finished.has(line.id) && (operationId ? line.id === operationId : line.stage === stage),
  );
  for (const line of done)
    await garmentMarkBook.add(writing, {
      garmentId,
      commissionId,
      kind: 'operation-finished',
      operationId: line.id,
      on: dateIn(at, await zoneOf(writing)),
      words: line.name,
      document: '',
    });
  return done.length;
};

/** An operation that was finished and is worked on again is finished no more. */
export const takeUpAgain = async (
  writing: Writing,
  { garmentId, operationId }: WorkedOnWords,
): Promise<void> => {
  if (!garmentId || !operationId) return;
  const marks = standingMarks(await garmentMarkBook.ofOperation(writing, garmentId, operationId));
  for (const mark of marks)
    if (mark.kind === 'operation-finished' && mark.operationId === operationId)
      await garmentMarkBook.takeBack(writing, mark.id, 'Taken up again');
};
