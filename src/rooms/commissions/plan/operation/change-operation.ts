import { NotFound, Stale } from '../../../../domain/kernel/errors.js';
import { changeOperation, type MakingPlan } from '../../../../domain/making/making-plan.js';
import type { Operation } from '../../../../domain/making/operation.js';
import { garmentBook } from '../../../../storage/books/garment-book.js';
import { type PlanLine, planBook } from '../../../../storage/books/plan-book.js';
import type { Reading, Visit } from '../../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { putPlan } from '../change-plan.js';

/** One operation of a plan. @throws NotFound when it was taken out */
export const operationOf = async (reading: Reading, garmentId: string, id: string): Promise<PlanLine> => {
  const line = (await planBook.of(reading, garmentId)).find((one) => one.id === id);
  if (!line) throw new NotFound('operation in this plan');
  return line;
};

/**
 * Changes one operation in its place.
 *
 * @throws Stale when it has changed, or was moved, since `seen`
 */
export const changeOneOperation = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  id: string,
  change: (present: Operation) => Operation,
  seen?: number,
): Promise<Done<MakingPlan>> =>
  putPlan(unit, visit, garmentId, async (writing, plan) => {
    const present = await operationOf(writing, garmentId, id);
    if (seen !== undefined && present.version !== seen) throw new Stale({ ...present });
    const changed = change(present);
    const { name } = await garmentBook.one(writing, garmentId);
    return {
      plan: changeOperation(plan, changed),
      says: `Changed “${changed.name}” in the plan of the ${name}`,
    };
  });
