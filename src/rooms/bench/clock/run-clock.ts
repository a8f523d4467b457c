import type { BenchEntry } from '../../../domain/bench/bench-entry.js';
import type { RunningClock } from '../../../domain/bench/running-clock.js';
import { tappedAt } from '../../../domain/bench/sitting.js';
import type { Instant } from '../../../domain/kernel/calendar-date.js';
import { Conflict } from '../../../domain/kernel/errors.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { clockBook } from '../../../storage/books/bench/clock-book.js';
import type { WorkedOnWords } from '../../../storage/books/bench/worked-on-columns.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { personWorking } from '../work/who-works.js';
import { workInWords } from '../work/work-words.js';
import { everyTimeFromNowOn, subjectOf, type WorkSaid, workedOn } from '../work/worked-on.js';
import { correctSitting, keepSitting, markFinished, takeUpAgain } from './keep-sitting.js';

/** A tap: whose, when it was made, and whether what ran before is finished. */
type Tap = {
  readonly person?: string | undefined;
  readonly at?: Instant | undefined;
  readonly finished?: boolean | undefined;
};

export type StartSaid = WorkSaid & Tap;
/** `begun` names the clock that is meant, where a page showed it. */
export type StopSaid = Tap & { readonly begun?: Instant | undefined };

/** What came of a tap: the clock that runs, and the minutes kept of the one before. */
export type Tapped = { readonly clock: RunningClock | undefined; readonly kept: BenchEntry | undefined };

const isSameWork = (a: WorkedOnWords, b: WorkedOnWords): boolean =>
  a.garmentId === b.garmentId &&
  a.operationId === b.operationId &&
  a.stage === b.stage &&
  a.away === b.away &&
  a.name === b.name &&
  a.cause === b.cause;

const stoppedWords = (before: RunningClock, kept: BenchEntry | undefined, now: Instant): string =>
  now < before.begunAt
    ? `${workInWords(before)}; the time of day was set back meanwhile, so write its minutes down by hand`
    : `${workInWords(before)} after ${kept ? minutesInWords(kept.minutes) : 'less than a minute'}`;

/**
 * When a clock stops. Where nobody says when, and the machine's time of day was set back behind its start, it stops where it
 * started: otherwise it could not be stopped until that hour comes round again.
 */
const stopOf = (running: RunningClock, said: { readonly at?: Instant | undefined }, at: Instant): Instant =>
  said.at === undefined && at < running.begunAt ? running.begunAt : at;

/**
 * Starts the clock of one person and stops the one before, in one act. What runs already goes on as it is.
 *
 * @throws Conflict where the one before would be stopped before it was started, or the garment is closed
 */
export const startClock = (unit: UnitOfWork, visit: Visit, said: StartSaid): Promise<Done<Tapped>> =>
  unit.write(visit, async (writing) => {
    const person = await personWorking(writing, said.person);
    const at = tappedAt(said.at, writing.at);
    const running = await clockBook.of(writing, person.id);
    const work = await workedOn(writing, said);
    if (running && isSameWork(running, work)) return { clock: running, kept: undefined };
    const kept = running ? await keepSitting(writing, person, running, stopOf(running, said, at)) : undefined;
    if (running && said.finished) await markFinished(writing, running, at);
    if (said.everyTime) await everyTimeFromNowOn(writing, work);
    await takeUpAgain(writing, work);
    const clock = await clockBook.start(writing, { personId: person.id, begunAt: at, ...work });
    const stopped = running ? `; stopped ${stoppedWords(running, kept, at)}` : '';
    writing.says(`Started ${workInWords(work)}${stopped}`, subjectOf(work));
    return { clock, kept };
  });

/**
 * Stops the clock of one person and keeps its minutes.
 *
 * @throws Conflict where none runs, or another than the one that was seen
 */
export const stopClock = (unit: UnitOfWork, visit: Visit, said: StopSaid): Promise<Done<Tapped>> =>
  unit.write(visit, async (writing) => {
    const person = await personWorking(writing, said.person);
    const running = await clockBook.of(writing, person.id);
    if (!running) throw new Conflict('No clock runs. It was stopped already.', 'no-clock');
    if (said.begun && said.begun !== running.begunAt)
      throw new Conflict('That clock was stopped already. Another runs by now.', 'another-clock');
    const at = tappedAt(said.at, writing.at);
    const kept = await keepSitting(writing, person, running, stopOf(running, said, at));
    const done = said.finished ? await markFinished(writing, running, at) : 0;
    writing.says(
      `Stopped ${stoppedWords(running, kept, at)}${done > 0 ? '; it is finished' : ''}`,
      subjectOf(running),
    );
    return { clock: undefined, kept };
  });

/** When a clock that was left running stopped. */
export type LeftSaid = {
  readonly person?: string | undefined;
  /** The minutes that are asked about; none for the clock that still runs. */
  readonly entry?: string | undefined;
  readonly begun?: Instant | undefined;
  /** None: it was right as it stood. */
  readonly stopped?: Instant | undefined;
};

/**
 * Says when a clock stopped that was left running. Its full length is kept first, then taken back, and the right length
 * stands in its place: the history shows both.
 *
 * @throws Invalid where that lies outside the sitting; Conflict where it was answered before
 */
export const answerLeftRunning = (
  unit: UnitOfWork,
  visit: Visit,
  said: LeftSaid,
): Promise<Done<BenchEntry>> =>
  unit.write(visit, async (writing) => {
    const asked = said.entry ? await benchBook.one(writing, said.entry) : undefined;
    const person = await personWorking(writing, asked?.personId ?? said.person);
    let full = asked;
    if (!full) {
      const running = await clockBook.of(writing, person.id);
      if (!running || (said.begun && said.begun !== running.begunAt))
        throw new Conflict('That clock was stopped already.', 'no-clock');
      full = await keepSitting(writing, person, running, writing.at);
    }
    if (!full) throw new Conflict('It ran less than a minute: there is nothing to put right.', 'no-minutes');
    const right = await correctSitting(writing, full, said.stopped ?? full.endedAt ?? writing.at);
    writing.says(
      `Put ${workInWords(full)} right: ${minutesInWords(right.minutes)}, kept as ${minutesInWords(full.minutes)} at first`,
      subjectOf(full),
    );
    return right;
  });
