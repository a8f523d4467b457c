import type { WorkedMinutes } from '../../bench/worked.js';
import type { Cause } from '../../costing/causes.js';
import type { PlannedGarment } from '../../estimating/lesson/history.js';
import type { Minutes } from '../../kernel/minutes.js';
import type { MakingPlan } from '../../making/making-plan.js';
import { type Operation, plannedMinutes } from '../../making/operation.js';

/** How far one line of the plan has come. */
export type OperationProgress = {
  readonly operation: Operation;
  readonly planned: Minutes;
  /** Minutes that count towards it: own error and unplanned work are not among them. */
  readonly minutes: Minutes;
  readonly state: 'to-do' | 'under-way' | 'finished';
};

/** How far a garment has come. `worked` = Σ minutes of the operations + `ownError` + `beside`. */
export type Progress = {
  readonly operations: readonly OperationProgress[];
  readonly leftOut: readonly Operation[];
  readonly worked: Minutes;
  /** Work done again because of an own error: paid for, and no measure of the operation. */
  readonly ownError: Minutes;
  /** Work that stands in no line of the plan, or that was asked for without one. */
  readonly beside: Minutes;
};

/** What is planned, what was worked, and what is finished. */
export type WorkSoFar = {
  readonly plan: MakingPlan;
  readonly worked: readonly WorkedMinutes[];
  readonly finished: ReadonlySet<string>;
  readonly leftOut: ReadonlySet<string>;
};

/** Causes whose minutes measure the planned operation they were worked on; the others need a line of their own. */
const OF_THE_OPERATION: readonly (Cause | undefined)[] = [
  undefined,
  'forgotten in the plan',
  'cloth or old work demanded it',
];

/** What an agreed extra planned is measured by its own line, whatever the cause of the extra. */
const countsTowards = ({ cause, extraId }: WorkedMinutes): boolean =>
  OF_THE_OPERATION.includes(cause) || (extraId !== undefined && cause !== 'own error');

/**
 * How far a garment has come, operation by operation: each minute is counted once, towards a line of the plan, as own error, or
 * beside the plan.
 *
 * @param input.plan the agreed plan, in whole minutes
 * @param input.worked minutes of the entries that stand, shared over operations and modes
 * @returns whole minutes; lines left out are not among the operations, what was worked on them is beside the plan
 * @see design 2-costing.md sections 5 and 6; test/domain/commissions/landing/progress.test.ts
 */
export const progressOf = ({ plan, worked, finished, leftOut }: WorkSoFar): Progress => {
  const stays = plan.filter(({ id }) => !leftOut.has(id));
  const towards = new Map(stays.map(({ id }) => [id, 0]));
  let [all, ownError, beside] = [0, 0, 0];
  for (const piece of worked) {
    all += piece.minutes;
    const before = towards.get(piece.operationId ?? '');
    if (piece.cause === 'own error') ownError += piece.minutes;
    else if (before === undefined || !countsTowards(piece)) beside += piece.minutes;
    else towards.set(piece.operationId ?? '', before + piece.minutes);
  }
  return {
    operations: stays.map((operation) => {
      const minutes = towards.get(operation.id) ?? 0;
      return {
        operation,
        planned: plannedMinutes(operation),
        minutes,
        state: finished.has(operation.id) ? 'finished' : minutes > 0 ? 'under-way' : 'to-do',
      };
    }),
    leftOut: plan.filter(({ id }) => leftOut.has(id)),
    worked: all,
    ownError,
    beside,
  };
};

/**
 * The garment as the lesson reads it while it is being made.
 *
 * @param stretch what the type's notebook totals make of a planned minute; 1 where there are none
 * @param repeat how many times this block has been made for this wearer, this one included
 * @see test/domain/commissions/landing/progress.test.ts
 */
export const asTheLessonReads = (
  progress: Progress,
  typeId: string,
  stretch = 1,
  repeat = 1,
): PlannedGarment => ({
  garmentType: typeId,
  repeat,
  operations: progress.operations.map(({ operation, planned, minutes, state }) => ({
    kind: operation.kind,
    mode: operation.mode,
    ...(operation.modeShares.length > 0
      ? { modes: Object.fromEntries(operation.modeShares.map(({ mode, share }) => [mode, Number(share)])) }
      : {}),
    plannedMinutes: planned * stretch,
    ...(state === 'finished' ? { finishedMinutes: minutes } : minutes > 0 ? { soFarMinutes: minutes } : {}),
    ...(operation.startingSpread ? { startingSpread: Number(operation.startingSpread) } : {}),
    fromStartingValues: operation.fromStartingValues,
  })),
});
