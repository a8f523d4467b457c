import { Decimal } from '../kernel/decimal.js';
import type { Minutes } from '../kernel/minutes.js';
import { shareByLargestRemainder } from '../kernel/sharing.js';
import type { MakingPlan } from './making-plan.js';
import { MODES, type Mode, STAGES, type Stage } from './mode.js';
import { type ModeShare, type Operation, plannedMinutes } from './operation.js';

/** The sums of a plan. Modes, and stages, each add up to `minutes` exactly. */
export type PlanMinutes = {
  readonly minutes: Minutes;
  readonly byMode: Readonly<Record<Mode, Minutes>>;
  readonly byStage: Readonly<Record<Stage, Minutes>>;
  /** Of all minutes, those put in to be taken out again. */
  readonly basting: Minutes;
  /** Operations nobody has given a time yet. */
  readonly needMinutes: readonly Operation[];
};

const noughts = <T extends string>(keys: readonly T[]): Record<T, Minutes> =>
  Object.fromEntries(keys.map((key) => [key, 0])) as Record<T, Minutes>;

/**
 * One operation's planned minutes over its modes, adding up exactly (largest remainder).
 *
 * @returns whole minutes for each mode it has
 */
export const minutesByMode = (operation: Operation): readonly { mode: Mode; minutes: Minutes }[] => {
  const shares: readonly ModeShare[] =
    operation.modeShares.length > 0
      ? operation.modeShares
      : [{ mode: operation.mode, share: new Decimal(1) }];
  const parts = shareByLargestRemainder(
    plannedMinutes(operation),
    shares.map(({ share }) => share),
  );
  return shares.map(({ mode }, index) => ({ mode, minutes: parts[index] ?? 0 }));
};

/**
 * Planned minutes of a plan: in all, by mode, by stage, and how much of it is basting.
 *
 * @returns whole minutes, each operation rounded once
 * @see test/domain/making/making-plan.test.ts
 */
export const planMinutes = (plan: MakingPlan): PlanMinutes => {
  const byMode = noughts(MODES);
  const byStage = noughts(STAGES);
  let [minutes, basting] = [0, 0];
  for (const operation of plan) {
    const own = plannedMinutes(operation);
    minutes += own;
    if (operation.basting) basting += own;
    byStage[operation.stage] += own;
    for (const part of minutesByMode(operation)) byMode[part.mode] += part.minutes;
  }
  return { minutes, byMode, byStage, basting, needMinutes: plan.filter((one) => one.needsMinutes) };
};
