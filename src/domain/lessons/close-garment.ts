import type { WorkedMinutes } from '../bench/worked.js';
import { progressOf } from '../commissions/landing/progress.js';
import type { CalendarDate } from '../kernel/calendar-date.js';
import type { MakingPlan } from '../making/making-plan.js';
import { plannedMinutes } from '../making/operation.js';
import type { ClosedGarment, ClosedOperation } from './closed-garment.js';
import { sewnSeam } from './hand-paces.js';

/** Everything the frozen figures of a garment are drawn from. */
export type GarmentToClose = Pick<
  ClosedGarment,
  'garmentId' | 'commissionId' | 'name' | 'typeId' | 'closedOn' | 'repeat'
> & {
  /** The agreed plan, extras included. */
  readonly plan: MakingPlan;
  readonly worked: readonly WorkedMinutes[];
  readonly leftOut: ReadonlySet<string>;
  /** Entries of own choice that are to be part of such work "every time from now on". */
  readonly everyTime: ReadonlySet<string>;
};

/**
 * Freezes what a garment teaches: for each line of the plan what was planned and what it took, own error beside it; then work that
 * was in no plan and that the next garment will need too.
 *
 * A line that was planned and has no minutes counts as left out.
 *
 * @returns whole minutes; Σ actual + Σ own error + beside = Σ minutes worked
 * @see closedGarmentText; test/domain/lessons/closed-garment.test.ts
 */
export const closeGarment = (input: GarmentToClose): ClosedGarment => {
  const { plan, worked, leftOut, everyTime } = input;
  const { operations: progress } = progressOf({ plan, worked, finished: new Set(), leftOut });
  const towards = new Map(progress.map(({ operation, minutes }) => [operation.id, minutes]));
  const errors = new Map<string, number>();
  const unplanned = new Map<string, ClosedOperation>();
  const inPlan = new Set(plan.map(({ id }) => id));
  for (const piece of worked) {
    if (piece.cause === 'own error')
      errors.set(lineOf(piece, inPlan), (errors.get(lineOf(piece, inPlan)) ?? 0) + piece.minutes);
    else if (!towards.has(piece.operationId ?? '') && isOfTheNext(piece, everyTime)) {
      const before = unplanned.get(keyOf(piece))?.actualMinutes ?? 0;
      unplanned.set(keyOf(piece), forgottenWork(piece, before + piece.minutes));
    }
  }
  for (const [key, ownErrorMinutes] of errors) {
    const known = unplanned.get(key);
    if (known) unplanned.set(key, { ...known, ownErrorMinutes });
    else if (!inPlan.has(key)) {
      const piece = worked.find((one) => one.cause === 'own error' && keyOf(one) === key);
      if (piece) unplanned.set(key, { ...forgottenWork(piece, 0), forgotten: false, ownErrorMinutes });
    }
  }
  const operations = [
    ...plan.map((operation): ClosedOperation => {
      const actualMinutes = towards.get(operation.id) ?? 0;
      const planned = plannedMinutes(operation);
      const seam = sewnSeam(operation);
      return {
        operationId: operation.id,
        kind: operation.kind,
        name: operation.name,
        mode: operation.mode,
        stage: operation.stage,
        plannedMinutes: planned,
        actualMinutes,
        ownErrorMinutes: errors.get(operation.id) ?? 0,
        leftOut: planned > 0 && actualMinutes === 0,
        forgotten: planned === 0 && actualMinutes > 0,
        changeNotReplanned: false,
        ...(seam && { seam }),
      };
    }),
    ...unplanned.values(),
  ];
  const sum = (of: (one: ClosedOperation) => number) => operations.reduce((all, one) => all + of(one), 0);
  const actualMinutes = sum((one) => one.actualMinutes);
  const ownErrorMinutes = sum((one) => one.ownErrorMinutes);
  const days = worked.map(({ on }): CalendarDate => on).sort();
  const { garmentId, commissionId, name, typeId, closedOn, repeat } = input;
  return {
    garmentId,
    commissionId,
    name,
    typeId,
    closedOn,
    begunOn: days[0],
    endedOn: days.at(-1),
    repeat,
    operations,
    totals: {
      plannedMinutes: sum((one) => one.plannedMinutes),
      actualMinutes,
      ownErrorMinutes,
      besideMinutes: worked.reduce((all, one) => all + one.minutes, 0) - actualMinutes - ownErrorMinutes,
    },
  };
};

const keyOf = ({ kind, name }: WorkedMinutes): string => kind || name;

const lineOf = (piece: WorkedMinutes, inPlan: ReadonlySet<string>): string =>
  piece.operationId !== undefined && inPlan.has(piece.operationId) ? piece.operationId : keyOf(piece);

/** Unplanned work the next garment will need too. */
const isOfTheNext = ({ cause, entryId }: WorkedMinutes, everyTime: ReadonlySet<string>): boolean =>
  cause === undefined || cause === 'forgotten in the plan' || everyTime.has(entryId);

const forgottenWork = (piece: WorkedMinutes, actualMinutes: number): ClosedOperation => ({
  operationId: '',
  kind: keyOf(piece),
  name: piece.name,
  mode: piece.mode,
  stage: 'make',
  plannedMinutes: 0,
  actualMinutes,
  ownErrorMinutes: 0,
  leftOut: false,
  forgotten: true,
  changeNotReplanned: false,
});
