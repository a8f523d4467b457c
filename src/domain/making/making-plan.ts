import { Conflict, Invalid, NotFound } from '../kernel/errors.js';
import { type Operation, operation } from './operation.js';

/** The ordered operations of one garment. */
export type MakingPlan = readonly Operation[];

/** The most operations one plan may hold. */
export const MOST_OPERATIONS = 300;

const placeOf = (plan: MakingPlan, id: string): number => {
  const place = plan.findIndex((one) => one.id === id);
  if (place < 0) throw new NotFound('operation in this plan');
  return place;
};

const swapped = (plan: MakingPlan, first: number): MakingPlan => {
  const [above, below] = [plan[first], plan[first + 1]];
  return above && below ? [...plan.slice(0, first), below, above, ...plan.slice(first + 2)] : plan;
};

/**
 * The plan with one operation more: after the last of its own stage, or at the end.
 *
 * @throws Invalid when the plan is full; Conflict when it holds this operation already
 */
export const addOperation = (plan: MakingPlan, added: Operation): MakingPlan => {
  if (plan.length >= MOST_OPERATIONS)
    throw new Invalid(`A plan holds at most ${MOST_OPERATIONS} operations. Make a second garment of it.`);
  if (plan.some((one) => one.id === added.id)) throw new Conflict('This operation is in the plan already.');
  const after = plan.findLastIndex((one) => one.stage === added.stage);
  const place = after < 0 ? plan.length : after + 1;
  return [...plan.slice(0, place), operation(added), ...plan.slice(place)];
};

/** The plan without one operation. @throws NotFound when it is not there */
export const takeOutOperation = (plan: MakingPlan, id: string): MakingPlan => {
  const place = placeOf(plan, id);
  return [...plan.slice(0, place), ...plan.slice(place + 1)];
};

/** The plan with one operation changed, in its place. @throws NotFound when it is not there */
export const changeOperation = (plan: MakingPlan, changed: Operation): MakingPlan => {
  const place = placeOf(plan, changed.id);
  return [...plan.slice(0, place), operation(changed), ...plan.slice(place + 1)];
};

/** One place earlier; the first stays first. @throws NotFound when it is not there */
export const moveUp = (plan: MakingPlan, id: string): MakingPlan => {
  const place = placeOf(plan, id);
  return place === 0 ? plan : swapped(plan, place - 1);
};

/** One place later; the last stays last. @throws NotFound when it is not there */
export const moveDown = (plan: MakingPlan, id: string): MakingPlan => swapped(plan, placeOf(plan, id));

/**
 * The plan of an earlier garment for a new one: the same operations, quantities and wording under new ids.
 *
 * @param nextId gives a new id each time it is asked
 */
export const copyPlan = (plan: MakingPlan, nextId: () => string): MakingPlan =>
  plan.map((one) => ({ ...one, id: nextId() }));
