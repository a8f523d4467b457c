import type { Decimal } from '../kernel/decimal.js';

/** Why minutes departed from the plan; a minute belongs to exactly one. */
export const CAUSES = [
  'client asked',
  'own choice',
  'own error',
  'forgotten in the plan',
  'cloth or old work demanded it',
  'body changed',
] as const;
export type Cause = (typeof CAUSES)[number];

/** Causes whose minutes say nothing about how well the planned work was estimated. */
const BESIDE_THE_PLAN: ReadonlySet<Cause> = new Set([
  'client asked',
  'own choice',
  'own error',
  'cloth or old work demanded it',
  'body changed',
]);

/**
 * By how much the plan itself ran over, once what was not in it is taken out: actual − planned − Σ minutes beside it.
 *
 * Forgotten work stays in: it belonged to the job and the plan missed it.
 *
 * @param planned time of the plan, any unit
 * @param actual time worked, the same unit
 * @param byCause time by cause
 * @returns over (positive) or under (negative), in the unit given
 * @see test/reference/costing/worked-sums.test.ts WS-16
 */
export const planItselfRan = (
  planned: Decimal,
  actual: Decimal,
  byCause: Partial<Record<Cause, Decimal>>,
): Decimal =>
  CAUSES.filter((cause) => BESIDE_THE_PLAN.has(cause)).reduce(
    (left, cause) => left.minus(byCause[cause] ?? 0),
    actual.minus(planned),
  );
