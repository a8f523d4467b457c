import { asTheLessonReads, progressOf } from '../../../domain/commissions/landing/progress.js';
import { predict } from '../../../domain/estimating/forecast/hours.js';
import { notebookStretch } from '../../../domain/estimating/garment-hours.js';
import type { PlannedGarment } from '../../../domain/estimating/lesson/history.js';
import { fittingGaps } from '../../../domain/estimating/promise/fitting-gaps.js';
import {
  type Moved,
  movedPromises,
  type Simulated,
  simulate,
  type WorkAhead,
} from '../../../domain/estimating/promise/simulate.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import type { Make } from '../../../domain/making/mode.js';
import { startingPlan } from '../../../domain/making/starting-plan.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { operationsAhead } from '../../../storage/landing/hours-left.js';
import { lessonBook } from '../../../storage/lesson/lesson-book.js';
import { notebookOf } from '../../../storage/lesson/notebook.js';
import type { Reading } from '../../../storage/session.js';
import type { Backlog } from './gather-promises.js';

/** A garment somebody would like to have: what it is, and before which other one it would be made. */
export type RushSaid = {
  readonly typeId: string;
  readonly make: Make;
  /** As the maker would plan it; none for the type's usual plan. */
  readonly minutes: number | undefined;
  /** The id of the garment it goes before; `last` to wait its turn. */
  readonly before: string;
};

/** What it would mean to take it. */
export type RushAnswer = {
  readonly plannedMinutes: number;
  readonly dates: Simulated;
  /** Promises that move at 4 in 5. */
  readonly moved: readonly Moved[];
  /** How many fittings it waits for. */
  readonly fittings: number;
};

export const RUSH = 'the rush';
const DRAWS = 1024;

/**
 * Plays the backlog with one more garment in it.
 *
 * @throws Invalid for a type without a usual plan and without hours, or a place that is none
 */
export const takeRush = async (
  reading: Reading,
  backlog: Backlog,
  before: Simulated,
  said: RushSaid,
): Promise<RushAnswer> => {
  const { work, plannedMinutes } = await workOfRush(reading, said);
  const others = backlog.works.map((one) => one.work);
  const place = said.before === 'last' ? others.length : others.findIndex(({ ref }) => ref === said.before);
  if (place < 0) throw Invalid.field('before', 'This garment is not among those that are being made.');
  const dates = simulate([...others.slice(0, place), work, ...others.slice(place)], backlog.calendar);
  const refs = others.map(({ ref }) => ref);
  return {
    plannedMinutes,
    dates,
    moved: movedPromises(refs, before, dates, 0.8),
    fittings: work.gaps.length,
  };
};

const workOfRush = async (
  reading: Reading,
  { typeId, make, minutes }: RushSaid,
): Promise<{ work: WorkAhead; plannedMinutes: number }> => {
  const type = (await makingBook.types(reading)).find(({ id }) => id === typeId);
  if (!type) throw Invalid.field('typeId', 'There is no such garment type.');
  let id = 0;
  const known = await makingBook.operations(reading, typeId);
  const { plan } = startingPlan(type, make, known, () => String(++id));
  const progress = progressOf({ plan, worked: [], finished: new Set(), leftOut: new Set() });
  const usual = progress.operations.reduce((sum, { planned }) => sum + planned, 0);
  const plannedMinutes = minutes ?? usual;
  if (minutes === 0) throw Invalid.field('hours', 'A garment takes more than no time.');
  if (plannedMinutes === 0)
    throw Invalid.field('hours', 'This type has no usual plan. Say how many hours it would take.');
  const lesson = await lessonBook.present(reading);
  const untouched = asTheLessonReads(progress, typeId);
  const { notebook, usualMinutes } = await notebookOf(reading, typeId, make);
  const stretch = notebookStretch({ plan: untouched, lesson, notebook, usualMinutes });
  const garment = sized(asTheLessonReads(progress, typeId, stretch), plannedMinutes, usual);
  const forecast = predict(lesson, garment, [0.5], DRAWS);
  const gaps = fittingGaps(operationsAhead(progress, forecast.medians), 0, []);
  const { totalAt: minutesAt, doubt } = forecast;
  return { work: { ref: RUSH, minutesAt, inCommon: doubt.history, gaps }, plannedMinutes };
};

/** The usual plan brought to the hours that were said; a garment without one is one piece of work. */
const sized = (garment: PlannedGarment, minutes: number, usual: number): PlannedGarment =>
  usual > 0
    ? {
        ...garment,
        operations: garment.operations.map((one) => ({
          ...one,
          plannedMinutes: (one.plannedMinutes * minutes) / usual,
        })),
      }
    : { ...garment, operations: [{ kind: 'whole garment', plannedMinutes: minutes }] };
