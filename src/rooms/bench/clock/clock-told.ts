import { randomUUID } from 'node:crypto';
import type { BenchEntry } from '../../../domain/bench/bench-entry.js';
import { likeliestOperations, type WorkSoFar } from '../../../domain/bench/likeliest.js';
import { minutesBetween, type RunningClock } from '../../../domain/bench/running-clock.js';
import {
  leftRunning,
  PERHAPS_LEFT_RUNNING,
  stoppedAnswers,
  usualSitting,
} from '../../../domain/bench/sitting.js';
import { standingEntries, workedMinutes } from '../../../domain/bench/worked.js';
import { operationMarks, standingMarks } from '../../../domain/commissions/garment-mark.js';
import { addDays, dateIn, type Instant } from '../../../domain/kernel/calendar-date.js';
import type { Minutes } from '../../../domain/kernel/minutes.js';
import type { MakingPlan } from '../../../domain/making/making-plan.js';
import { type Operation, plannedMinutes } from '../../../domain/making/operation.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { sittingBook } from '../../../storage/books/bench/sitting-book.js';
import { planBook } from '../../../storage/books/plan-book.js';
import type { Reading } from '../../../storage/session.js';

/** A garment's plan with what was worked on it. */
export type GarmentSoFar = {
  readonly plan: MakingPlan;
  readonly soFar: WorkSoFar;
  /** Minutes by line of the plan. */
  readonly worked: ReadonlyMap<string, Minutes>;
};

/** What stands in the plan and what was worked, for one garment. */
export const garmentSoFar = async (reading: Reading, garmentId: string): Promise<GarmentSoFar> => {
  const plan = await planBook.of(reading, garmentId);
  const entries = await benchBook.ofGarment(reading, garmentId);
  const marks = await garmentMarkBook.ofGarment(reading, garmentId);
  const isCut = standingMarks(marks).some(({ kind }) => kind === 'cut');
  return {
    plan,
    soFar: { ...operationMarks(marks), isCut, worked: standingEntries(entries).reverse() },
    worked: workedByLine(entries, plan),
  };
};

const workedByLine = (entries: readonly BenchEntry[], plan: MakingPlan): Map<string, Minutes> => {
  const worked = new Map<string, Minutes>();
  for (const { operationId, minutes } of workedMinutes(entries, plan))
    if (operationId) worked.set(operationId, (worked.get(operationId) ?? 0) + minutes);
  return worked;
};

/** How long a clock runs, what went before on the same work, and what is planned for it. */
export type Elapsed = {
  readonly sitting: Minutes;
  readonly before: Minutes;
  /** 0 where nothing is planned. */
  readonly planned: Minutes;
};

const linesOf = (clock: RunningClock, plan: MakingPlan): readonly Operation[] =>
  plan.filter((line) => (clock.operationId ? line.id === clock.operationId : line.stage === clock.stage));

/** The clock of a garment against its plan. */
export const elapsedOf = (
  clock: RunningClock,
  now: Instant,
  garment: Pick<GarmentSoFar, 'plan' | 'worked'> | undefined,
): Elapsed => {
  const lines = garment ? linesOf(clock, garment.plan) : [];
  const sum = (of: (line: Operation) => Minutes): Minutes =>
    lines.reduce((total, line) => total + of(line), 0);
  return {
    sitting: minutesBetween(clock.begunAt, now),
    before: sum(({ id }) => garment?.worked.get(id) ?? 0),
    planned: sum(plannedMinutes),
  };
};

/** The same for a clock alone, without reading what else was worked on its garment. */
export const elapsedNow = async (reading: Reading, clock: RunningClock, now: Instant): Promise<Elapsed> => {
  const { garmentId, operationId } = clock;
  if (!garmentId) return elapsedOf(clock, now, undefined);
  const plan = await planBook.of(reading, garmentId);
  const entries = operationId
    ? await benchBook.ofOperation(reading, garmentId, operationId)
    : await benchBook.ofGarment(reading, garmentId);
  return elapsedOf(clock, now, { plan, worked: workedByLine(entries, plan) });
};

/** What is likeliest to come after what runs now. */
export const nextAfter = (clock: RunningClock, { plan, soFar }: GarmentSoFar): Operation | undefined => {
  const running = { operationId: clock.operationId, stage: clock.stage };
  const lines = new Set(linesOf(clock, plan).map(({ id }) => id));
  const after = { ...soFar, worked: [running, ...soFar.worked] };
  return likeliestOperations(plan, after, plan.length).find(({ id }) => !lines.has(id));
};

/** A sitting that is asked about: did the clock go on when the work had stopped? */
export type LeftQuestion = {
  readonly work: RunningClock | BenchEntry;
  readonly span: { readonly begunAt: Instant; readonly endedAt: Instant };
  readonly answers: ReturnType<typeof stoppedAnswers>;
  /** The entry that is asked about; none while the clock runs. */
  readonly entry: string | undefined;
  readonly once: string;
};

const questionOf = async (
  reading: Reading,
  work: RunningClock | BenchEntry,
  span: LeftQuestion['span'],
  zone: string,
): Promise<LeftQuestion> => {
  const garment = work.garmentId ? await planBook.of(reading, work.garmentId) : [];
  const planned = garment.find(({ id }) => id === work.operationId);
  const usual = usualSitting(await sittingBook.recent(reading, work), planned ? plannedMinutes(planned) : 0);
  const entry = 'id' in work ? work.id : undefined;
  return { work, span, answers: stoppedAnswers(span, usual, zone), entry, once: randomUUID() };
};

/** Is the clock that runs now asked about? */
export const runningQuestion = async (
  reading: Reading,
  clock: RunningClock,
  now: Instant,
  zone: string,
): Promise<LeftQuestion | undefined> => {
  const span = { begunAt: clock.begunAt, endedAt: now };
  const why = leftRunning(span, await sittingBook.longest(reading, clock), zone);
  return why ? questionOf(reading, clock, span, zone) : undefined;
};

/** Days back in which an unanswered question is still put. */
const ASKED_FOR = 60;

/** Minutes of this person that were kept and are still asked about, oldest first. */
export const keptQuestions = async (
  reading: Reading,
  personId: string,
  now: Instant,
  zone: string,
): Promise<LeftQuestion[]> => {
  const since = addDays(dateIn(now, zone), -ASKED_FOR);
  const questions: LeftQuestion[] = [];
  for (const entry of await sittingBook.noted(reading, personId, since, PERHAPS_LEFT_RUNNING)) {
    const { begunAt, endedAt } = entry;
    if (begunAt && endedAt) questions.push(await questionOf(reading, entry, { begunAt, endedAt }, zone));
  }
  return questions;
};
