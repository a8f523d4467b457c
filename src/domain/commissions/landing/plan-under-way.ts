import type { MakingPlan } from '../../making/making-plan.js';
import { plannedMinutes } from '../../making/operation.js';

/**
 * The plan that is being worked: its lines as they stand at the bench, each with the minutes that were agreed. Minutes changed after
 * the work was agreed are what the maker knows by then, and a plan that knows the outcome would teach nothing.
 *
 * @param rows the plan as it stands: lines put in since are work all the same
 * @param agreed the quote's plan and its extras; a line without minutes there takes those of the row
 * @see test/domain/commissions/landing/plan-under-way.test.ts
 */
export const planUnderWay = (rows: MakingPlan, agreed: MakingPlan): MakingPlan => {
  const byId = new Map(agreed.map((operation) => [operation.id, operation]));
  return rows.map((row) => {
    const known = byId.get(row.id);
    return known && plannedMinutes(known) > 0 ? known : row;
  });
};
