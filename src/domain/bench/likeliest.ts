import type { MakingPlan } from '../making/making-plan.js';
import type { Stage } from '../making/mode.js';
import type { Operation } from '../making/operation.js';

/** What is known of a garment's work so far. */
export type WorkSoFar = {
  readonly finished: ReadonlySet<string>;
  readonly leftOut: ReadonlySet<string>;
  /** Cutting was recorded: what stands before it in the plan is behind the garment, whether it was timed or not. */
  readonly isCut?: boolean | undefined;
  /** What was worked, the newest first: a line of the plan, or a whole stage. */
  readonly worked: readonly {
    readonly operationId?: string | undefined;
    readonly stage?: Stage | undefined;
  }[];
};

/**
 * The operations that are likeliest to come next on a garment: what was worked last, if it is not finished; then what
 * follows it in its stage; then what else was begun, the newest first; then what was passed over in the stage; then what
 * follows in the plan; then what was passed over before. Without work the plan's own order.
 *
 * Once a garment is cut, drafting and cutting are not offered any more, and other work that stands no later in the plan
 * than the cutting comes last, unless it was drafted or cut last: then the cutting goes on.
 *
 * Common practice, no source: one goes on where one stopped, and a stage is brought to its end.
 *
 * @param most how many, at least 1
 * @returns at most `most` operations, none of them finished or left out
 * @see test/domain/bench/likeliest.test.ts
 */
export const likeliestOperations = (plan: MakingPlan, soFar: WorkSoFar, most = 5): Operation[] => {
  const { anchor, stage } = underWay(plan, soFar);
  const isBehind = (operation: Operation): boolean =>
    soFar.isCut === true && BEFORE_BASTING.includes(operation.stage) && !goesOnCutting(plan, soFar);
  const begun = soFar.worked.flatMap(({ operationId }) => (operationId ? [operationId] : []));
  const groupOf = (operation: Operation, index: number): number => {
    if (index === anchor) return 0;
    const isHere = operation.stage === stage;
    if (isHere && index > anchor) return 1;
    if (begun.includes(operation.id)) return 2;
    if (isHere) return 3;
    return index > anchor ? 4 : 5;
  };
  return plan
    .map((operation, index) => ({ operation, index, group: groupOf(operation, index) }))
    .filter(({ operation }) => !soFar.finished.has(operation.id) && !soFar.leftOut.has(operation.id))
    .filter(({ operation }) => !isBehind(operation))
    .sort(
      (a, b) =>
        a.group - b.group ||
        (a.group === 2 ? begun.indexOf(a.operation.id) - begun.indexOf(b.operation.id) : a.index - b.index),
    )
    .slice(0, most)
    .map(({ operation }) => operation);
};

/** Stages that are behind a garment once it is cut. */
const BEFORE_BASTING: readonly Stage[] = ['draft', 'cut'];

const goesOnCutting = (plan: MakingPlan, soFar: WorkSoFar): boolean => {
  const { stage } = lastWorked(plan, soFar);
  return stage !== undefined && BEFORE_BASTING.includes(stage);
};

type Standing = { readonly anchor: number; readonly stage: Stage | undefined };

/** Where the work stands in the plan, and behind the cutting once the garment is cut. */
const underWay = (plan: MakingPlan, soFar: WorkSoFar): Standing => {
  const at = lastWorked(plan, soFar);
  const cut = soFar.isCut ? plan.findLastIndex(({ stage }) => stage === 'cut') : -1;
  if (at.stage === 'cut' || at.anchor >= cut) return at;
  return { anchor: cut + 0.5, stage: plan[cut + 1]?.stage };
};

/** Where the work stands by what was worked last; a whole stage stands before its first operation. */
const lastWorked = (plan: MakingPlan, { worked }: WorkSoFar): Standing => {
  for (const one of worked) {
    const anchor = plan.findIndex(({ id }) => id === one.operationId);
    if (anchor >= 0) return { anchor, stage: plan[anchor]?.stage };
    const first = one.operationId ? -1 : plan.findIndex(({ stage }) => stage === one.stage);
    if (first >= 0) return { anchor: first - 0.5, stage: one.stage };
  }
  return { anchor: -1, stage: undefined };
};
