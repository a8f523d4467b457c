import { Conflict, Stale } from '../../../domain/kernel/errors.js';
import { type MakingPlan, moveDown, moveUp, takeOutOperation } from '../../../domain/making/making-plan.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { type PlanLine, planBook } from '../../../storage/books/plan-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { tagOfAll } from '../../../web/forms/version.js';
import { garmentSubject } from '../open-commission.js';
import { fieldName, type PlanEdit, textsOf, withEdits } from './plan-edits.js';

/** What is done to a plan besides keeping what was typed. */
export type PlanAct = { readonly is: 'keep' } | { readonly is: 'up' | 'down' | 'out'; readonly id: string };

/** What the button said: `keep`, `up:<id>`. */
export const planActOf = (pressed: string | undefined): PlanAct => {
  const [is, id] = (pressed ?? 'keep').split(':');
  return (is === 'up' || is === 'down' || is === 'out') && id ? { is, id } : { is: 'keep' };
};

const MOVES = { up: moveUp, down: moveDown, out: takeOutOperation };

/**
 * Keeps what was typed into a plan, then moves an operation or takes it out: one act.
 *
 * Each field is compared with what stood in it when it was read, so that two people may work on one plan, and moving lines
 * hinders nobody; only a field that both have changed is a conflict.
 *
 * @param seen the version of the operation that is moved or taken out, as it was looked at
 * @throws Stale carrying the present texts of the fields in conflict as `texts`, or when `seen` is past
 * @throws Conflict when an operation was taken out meanwhile
 */
export const changePlan = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  edits: readonly PlanEdit[],
  act: PlanAct,
  seen?: number,
): Promise<Done<MakingPlan>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    await garmentMarkBook.mustBeOpen(writing, garmentId);
    const present = await planBook.of(writing, garmentId);
    mustNotCross(present, edits);
    const named = act.is === 'keep' ? undefined : present.find(({ id }) => id === act.id);
    if (act.is !== 'keep' && !named) throw takenOut();
    const kept = withEdits(present, edits);
    const plan = act.is === 'keep' ? kept : MOVES[act.is](kept, act.id);
    const looked = named && seen !== undefined ? { [named.id]: seen } : {};
    await planBook.keep(writing, garmentId, plan, looked);
    writing.says(sentenceOf(act, named?.name ?? '', garment.name), garmentSubject(garment));
    return plan;
  });

const sentenceOf = (act: PlanAct, operation: string, garment: string): string => {
  if (act.is === 'out') return `Took “${operation}” out of the plan of the ${garment}`;
  if (act.is === 'keep') return `Changed the plan of the ${garment}`;
  return `Moved “${operation}” ${act.is === 'up' ? 'earlier' : 'later'} in the plan of the ${garment}`;
};

const takenOut = (): Conflict =>
  new Conflict('Somebody took this operation out meanwhile. The plan below is as it stands now.', 'gone');

const mustNotCross = (present: MakingPlan, edits: readonly PlanEdit[]): void => {
  const lines = new Map(present.map((one) => [one.id, textsOf(one)]));
  const texts: Record<string, string> = {};
  for (const { id, field, was, typed } of edits) {
    const line = lines.get(id);
    if (!line) throw takenOut();
    if (line[field] !== was && line[field] !== typed) texts[fieldName(id, field)] = line[field];
  }
  if (Object.keys(texts).length > 0) throw new Stale({ version: 0, texts });
};

/**
 * Puts a whole plan in place of the present one, or after it.
 *
 * @param seen the tag of the whole plan that was looked at
 * @throws Stale when anything in the plan is not as it was seen
 */
export const putPlan = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  make: (writing: Writing, present: readonly PlanLine[]) => Promise<{ plan: MakingPlan; says: string }>,
  seen?: string,
): Promise<Done<MakingPlan>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    await garmentMarkBook.mustBeOpen(writing, garmentId);
    const present = await planBook.of(writing, garmentId);
    if (seen !== undefined && seen !== tagOfAll(present)) throw new Stale({ items: present });
    const { plan, says } = await make(writing, present);
    const looked = seen === undefined ? [] : present.map(({ id, version }) => [id, version]);
    await planBook.keep(writing, garmentId, plan, Object.fromEntries(looked));
    writing.says(says, garmentSubject(garment));
    return plan;
  });
