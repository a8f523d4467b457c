import { type EarnedValue, earnedValueOf, valueOfShare } from '../../costing/earned-value.js';
import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';
import { minutesByMode } from '../../making/plan-minutes.js';
import { type CostColumn, costToCome, type Hour } from './columns.js';
import type { Progress } from './progress.js';

/** What earned value rests on. */
export type EarnedBasis = {
  readonly budgetAtCompletion: Money;
  readonly earnedValue: Money;
  readonly actualCost: Money;
};

export type Earned = EarnedValue & EarnedBasis;

/** Cost of time in a column: labour, machine, and the overhead that goes by them. */
export const ofTime = (column: CostColumn): Money =>
  column.labour.plus(column.machine).plus(column.overheadOfTime);

/**
 * The textbook figures, on time alone: materials and expenses are bought, not earned by the hour.
 *
 * Budget = the plan's minutes at today's rates. Earned = the budget's share of every finished operation, and of one under way as
 * much as its minutes are of what it takes at even chance. Actual = cost of time so far. There is no dated plan, so no planned value.
 *
 * @returns null where no minutes are planned
 * @see test/domain/commissions/landing/landing.test.ts
 */
export const earnedOf = (
  progress: Progress,
  medians: readonly number[],
  soFar: CostColumn,
  hour: Hour,
): Earned | null => {
  const planned = progress.operations.reduce((sum, one) => sum + one.planned, 0);
  if (planned === 0) return null;
  const zero = Money.zero(hour.perHour.currency);
  const plan = progress.operations.flatMap(({ operation }) =>
    minutesByMode(operation).map(({ mode, minutes }) => ({
      name: operation.name,
      mode,
      minutes: new Decimal(minutes),
    })),
  );
  const budgetAtCompletion = ofTime(costToCome(plan, zero, zero, hour));
  const done = progress.operations.reduce((sum, { planned: own, minutes, state }, i) => {
    if (state === 'finished') return sum + own;
    const takes = medians[i] ?? 0;
    return minutes > 0 && takes > 0 ? sum + own * Math.min(1, minutes / takes) : sum;
  }, 0);
  const basis: EarnedBasis = {
    budgetAtCompletion,
    earnedValue: valueOfShare(budgetAtCompletion, new Decimal((done / planned).toFixed(6))),
    actualCost: ofTime(soFar),
  };
  return { ...basis, ...earnedValueOf({ ...basis, plannedValue: null }) };
};
