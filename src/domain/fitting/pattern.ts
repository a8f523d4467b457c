import type { CalendarDate } from '../kernel/calendar-date.js';
import type { MakingPlan } from '../making/making-plan.js';

/** A pattern on its hook. */
export type Pattern = {
  readonly id: string;
  readonly version: number;
  /** `P-001`: stands on the pattern itself. */
  readonly number: string;
  readonly clientId: string;
  readonly garmentType: string;
  readonly name: string;
  /** Where it hangs: hook, drawer, tube. */
  readonly hook: string;
  /** What was changed on it last; empty while it is as it was drafted. */
  readonly lastCorrection: string;
  readonly correctedOn: CalendarDate | undefined;
  /** The fitting the last correction came from. */
  readonly fittingId: string | undefined;
  /** The garment it was drafted for. */
  readonly fromGarmentId: string | undefined;
  readonly notes: string;
};

/** The number of a pattern: `P-001`. @param count from 1, in the order in which patterns were hung up */
export const patternNumber = (count: number): string => `P-${String(count).padStart(3, '0')}`;

/**
 * A plan for cutting from a pattern that hangs there: without its draft operations.
 *
 * @returns the plan without them, and what was left out
 * @see test/domain/fitting/fitting.test.ts
 */
export const withoutDrafting = (
  plan: MakingPlan,
): { readonly plan: MakingPlan; readonly left: MakingPlan } => ({
  plan: plan.filter(({ stage }) => stage !== 'draft'),
  left: plan.filter(({ stage }) => stage === 'draft'),
});
