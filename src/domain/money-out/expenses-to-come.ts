import type { Money } from '../kernel/money.js';

/**
 * Direct expenses a garment is still to cause: what was planned less what came, but not less than the outwork that is agreed
 * and not yet among its bills.
 *
 * Bills that nobody planned use the plan up too: which planned line a bill belongs to is not known.
 *
 * @param planned Σ expense lines of the plan, not negative
 * @param soFar Σ bills of the garment that stand, not negative
 * @param agreed Σ outwork tickets not paid yet, not negative
 * @returns money, exact, not negative
 * @see test/domain/money-out/expenses-to-come.test.ts
 */
export const expensesToCome = (planned: Money, soFar: Money, agreed: Money): Money => {
  const left = planned.minus(soFar);
  return left.compare(agreed) > 0 ? left : agreed;
};
