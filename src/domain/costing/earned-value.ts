import { Decimal } from '../kernel/decimal.js';
import { OutOfRange } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import type { Share } from '../kernel/share.js';
import { roundOnce } from './round-once.js';

export type EarnedValueInput = {
  readonly budgetAtCompletion: Money;
  /** Null without a dated plan; then the schedule figures are null. */
  readonly plannedValue: Money | null;
  readonly earnedValue: Money;
  readonly actualCost: Money;
};

/** An index is null where it is undefined; so is what rests on it. Indices are unrounded, money is rounded once. */
export type EarnedValue = {
  readonly costVariance: Money;
  readonly scheduleVariance: Money | null;
  readonly costPerformance: Decimal | null;
  readonly schedulePerformance: Decimal | null;
  readonly estimateAtCompletion: Money | null;
  readonly estimateToComplete: Money | null;
  readonly varianceAtCompletion: Money | null;
};

/** What so much of a budget is worth: budget × share, for planned value and for earned value. Rounded once. */
export const valueOfShare = (budgetAtCompletion: Money, share: Share): Money =>
  budgetAtCompletion.timesRounded(share);

const ratio = (over: Money, under: Money): Decimal | null =>
  over.isZero() || under.isZero() ? null : over.toDecimal().div(under.toDecimal());

/**
 * The textbook figures of a job under way.
 *
 * CV = EV − AC, SV = EV − PV, CPI = EV / AC, SPI = EV / PV, EAC = BAC / CPI, ETC = EAC − AC, VAC = BAC − EAC.
 * With nothing earned or nothing spent an index is undefined and null.
 *
 * @param input amounts of one currency, none negative
 * @returns variances favourable positive; money rounded half away from zero, indices unrounded
 * @throws OutOfRange when an amount is negative
 * @see P. Govan, PRA 0.4.0, tests of earned value management (2025); test/reference/costing/earned-value.test.ts
 */
export const earnedValueOf = (input: EarnedValueInput): EarnedValue => {
  const { budgetAtCompletion, plannedValue, earnedValue, actualCost } = input;
  if ([budgetAtCompletion, earnedValue, actualCost, plannedValue].some((amount) => amount?.isNegative())) {
    throw new OutOfRange('Budget, planned value, earned value and actual cost cannot be below 0.');
  }
  const costPerformance = ratio(earnedValue, actualCost);
  const estimate = costPerformance
    ? roundOnce(
        // BAC × AC / EV rather than BAC / CPI: one division leaves no residue to round the wrong way
        budgetAtCompletion.toDecimal().times(actualCost.toDecimal()).div(earnedValue.toDecimal()),
        budgetAtCompletion.currency,
      )
    : null;
  return {
    costVariance: earnedValue.minus(actualCost),
    scheduleVariance: plannedValue ? earnedValue.minus(plannedValue) : null,
    costPerformance,
    schedulePerformance: plannedValue ? ratio(earnedValue, plannedValue) : null,
    estimateAtCompletion: estimate,
    estimateToComplete: estimate?.minus(actualCost) ?? null,
    varianceAtCompletion: estimate ? budgetAtCompletion.minus(estimate) : null,
  };
};

/**
 * Estimate at completion when what is left goes at a stated performance: AC + (BAC − EV) / factor.
 *
 * A factor of 1 says that what is left goes as planned; CPI × SPI says that it suffers from both.
 *
 * @param performance above 0
 * @returns money, rounded half away from zero
 * @throws OutOfRange when the performance is not above 0
 * @see test/reference/costing/earned-value.test.ts EV-05, EV-06, EV-12
 */
export const estimateAtPerformance = (
  input: Pick<EarnedValueInput, 'budgetAtCompletion' | 'earnedValue' | 'actualCost'>,
  performance: Decimal = new Decimal(1),
): Money => {
  if (performance.lte(0)) throw new OutOfRange('A performance index must be above 0 to estimate by it.');
  const left = input.budgetAtCompletion.minus(input.earnedValue).toDecimal().div(performance);
  return roundOnce(input.actualCost.toDecimal().plus(left), input.actualCost.currency);
};
