import type { BenchEntry } from '../../domain/bench/bench-entry.js';
import { type WorkedMinutes, workedMinutes } from '../../domain/bench/worked.js';
import type { PlannedGarment } from '../../domain/commissions/garment.js';
import {
  type GarmentMark,
  type GarmentStanding,
  garmentStanding,
  operationMarks,
  standingMarks,
} from '../../domain/commissions/garment-mark.js';
import { planUnderWay } from '../../domain/commissions/landing/plan-under-way.js';
import { asTheLessonReads, progressOf, type WorkSoFar } from '../../domain/commissions/landing/progress.js';
import { notebookStretch } from '../../domain/estimating/garment-hours.js';
import type { Lesson } from '../../domain/estimating/lesson/lesson.js';
import type { Decimal } from '../../domain/kernel/decimal.js';
import { mendingShare } from '../../domain/lessons/mending-share.js';
import { type FrozenReckoning, readReckoning } from '../../domain/reckoning/frozen-reckoning.js';
import { type AgreedGarment, agreedPlanBook } from '../books/bench/agreed-plan-book.js';
import { benchBook } from '../books/bench/bench-book.js';
import { garmentMarkBook } from '../books/bench/garment-mark-book.js';
import { garmentBook } from '../books/garment-book.js';
import { lessonBook } from '../lesson/lesson-book.js';
import { notebookOf } from '../lesson/notebook.js';
import type { Reading } from '../session.js';

/** A garment with its plan, what was agreed, what was worked and what is finished. */
export type WorkOfGarment = WorkSoFar & {
  readonly planned: PlannedGarment;
  readonly agreed: AgreedGarment;
  readonly standing: GarmentStanding;
  /** The figures frozen with its closing; none while it is open. */
  readonly reckoned: FrozenReckoning | undefined;
  /** Reversals included, oldest first. */
  readonly entries: readonly BenchEntry[];
  readonly worked: readonly WorkedMinutes[];
  readonly typeId: string;
  readonly stretch: number;
  readonly mendingShare: Decimal;
  readonly lesson: Lesson;
};

/** Was anything worked on a garment, or marked on it? */
export const isUnderWay = async (reading: Reading, garmentId: string): Promise<boolean> =>
  (await benchBook.newest(reading, 1, undefined, { garmentId })).length > 0 ||
  (await garmentMarkBook.ofGarment(reading, garmentId)).length > 0;

const reckonedIn = (marks: readonly GarmentMark[]): FrozenReckoning | undefined => {
  const closed = standingMarks(marks).find(({ kind }) => kind === 'closed');
  return closed && readReckoning(closed.document);
};

/** Gathers a garment under way. @throws NotFound */
export const workOfGarment = async (reading: Reading, garmentId: string): Promise<WorkOfGarment> => {
  const planned = await garmentBook.planned(reading, garmentId);
  const agreed = await agreedPlanBook.of(reading, garmentId);
  const entries = await benchBook.ofGarment(reading, garmentId);
  const marks: readonly GarmentMark[] = await garmentMarkBook.ofGarment(reading, garmentId);
  const { finished, leftOut } = operationMarks(marks);
  const plan = planUnderWay(planned.plan, agreed.agreed.plan);
  const { typeId, make } = planned.garment;
  const lesson = await lessonBook.present(reading);
  const { notebook, usualMinutes } = await notebookOf(reading, typeId, make);
  const untouched = progressOf({ plan, worked: [], finished: new Set(), leftOut: new Set() });
  return {
    planned,
    agreed,
    standing: garmentStanding(marks),
    reckoned: reckonedIn(marks),
    entries,
    plan,
    worked: workedMinutes(
      entries,
      plan.filter(({ id }) => !leftOut.has(id)),
    ),
    finished,
    leftOut,
    typeId,
    stretch: notebookStretch({ plan: asTheLessonReads(untouched, typeId), lesson, notebook, usualMinutes }),
    mendingShare: mendingShare(await lessonBook.closed(reading), typeId).share,
    lesson,
  };
};
