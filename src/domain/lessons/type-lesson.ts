import { type TrueHours, trueHours } from '../estimating/true-hours.js';
import type { Decimal } from '../kernel/decimal.js';
import { hoursOf } from '../kernel/minutes.js';
import type { GarmentType } from '../making/garment-type.js';
import type { KnownOperation } from '../making/known-operation.js';
import { planMinutes } from '../making/plan-minutes.js';
import { startingPlan } from '../making/starting-plan.js';
import type { ClosedGarment } from './closed-garment.js';
import { type MadeGarment, madeGarments } from './made-garments.js';
import type { PastGarment } from './past-garment.js';
import { usualOverrun } from './usual-overrun.js';

/** What was believed before any garment of the type was known, and who says so. */
export type StartingBelief = {
  readonly hours: Decimal;
  /** `ours`: the maker's own guess. `starting-value`: the total of the plan the program ships for the type. */
  readonly from: 'ours' | 'starting-value';
};

/** What past garments say about one type of garment. */
export type TypeLesson = {
  readonly type: GarmentType;
  /** How many garments it rests on; those far off from the others are not among them. */
  readonly garments: number;
  /** Of these, so many are known by operation. */
  readonly closed: number;
  /** Every garment of the type, far off or not, oldest first. */
  readonly made: readonly MadeGarment[];
  readonly belief: StartingBelief | undefined;
  readonly hours: TrueHours;
  /** Usual ratio of hours taken to hours planned, where plans are known: 1.25 is a quarter over. */
  readonly overrun: { readonly garments: number; readonly ratio: Decimal } | undefined;
};

/**
 * What is believed of a type before its first garment: the maker's own guess, else the total of its starting plan.
 *
 * @param operations the operations known for the type
 * @returns hours, unrounded; nothing for a price list or a type without a plan and without a guess
 */
export const startingBelief = (
  type: GarmentType,
  operations: readonly KnownOperation[],
  ownGuess?: Decimal,
): StartingBelief | undefined => {
  if (ownGuess) return { hours: ownGuess, from: 'ours' };
  const { minutes } = planMinutes(startingPlan(type, 'hand-where-it-shows', operations, () => type.id).plan);
  return minutes > 0 ? { hours: hoursOf(minutes), from: 'starting-value' } : undefined;
};

/**
 * True hours of one type at once, by the closed form: a typical one, and the next one at any chance; and the usual
 * overrun where planned hours are known (geometric mean of actual / planned). Garments closed here and totals out of the notebook
 * count alike, one each.
 *
 * @param past notebook totals of any type; only this type's count
 * @param closed closed garments of any type; only this type's count
 * @returns nothing when there is neither a garment nor a belief
 * @see madeGarments; test/domain/lessons/type-lesson.test.ts
 */
export const typeLesson = (
  type: GarmentType,
  past: readonly PastGarment[],
  belief: StartingBelief | undefined,
  closed: readonly ClosedGarment[] = [],
): TypeLesson | undefined => {
  const made = madeGarments(type.id, closed, past);
  const own = made.filter(({ isFarOff }) => !isFarOff);
  if (own.length === 0 && !belief) return undefined;
  return {
    type,
    garments: own.length,
    closed: own.filter(({ from }) => from === 'closed').length,
    made,
    belief,
    hours: trueHours({
      hours: own.map(({ hours }) => hours.toNumber()),
      ...(belief && { ownGuess: belief.hours.toNumber() }),
    }),
    overrun: usualOverrun(
      own.flatMap(({ hours, plannedHours }) => (plannedHours ? [{ hours, plannedHours }] : [])),
    ),
  };
};
