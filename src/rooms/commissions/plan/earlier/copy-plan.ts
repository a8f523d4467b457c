import type { Garment } from '../../../../domain/commissions/garment.js';
import { Invalid } from '../../../../domain/kernel/errors.js';
import type { KnownOperation } from '../../../../domain/making/known-operation.js';
import {
  addOperation,
  copyPlan,
  type MakingPlan,
  MOST_OPERATIONS,
} from '../../../../domain/making/making-plan.js';
import { startingPlan } from '../../../../domain/making/starting-plan.js';
import { garmentBook } from '../../../../storage/books/garment-book.js';
import { makingBook } from '../../../../storage/books/making-book.js';
import { planBook } from '../../../../storage/books/plan-book.js';
import type { Reading, Visit } from '../../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { kindOf } from '../add-line.js';
import { putPlan } from '../change-plan.js';

/** Takes over the plan of an earlier garment: in place of the present one, or after it. */
export const takeOverPlan = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  from: string,
  how: 'instead' | 'after',
): Promise<Done<MakingPlan>> =>
  putPlan(unit, visit, garmentId, async (writing, present) => {
    const [garment, earlier] = [
      await garmentBook.one(writing, garmentId),
      await garmentBook.one(writing, from),
    ];
    const copy = copyPlan(await planBook.of(writing, from), () => writing.newId());
    if (copy.length === 0) throw new Invalid(`The ${earlier.name} has no operations to take over.`);
    const plan = how === 'after' ? [...present, ...copy] : copy;
    if (plan.length > MOST_OPERATIONS)
      throw new Invalid(`Together they would be more than the ${MOST_OPERATIONS} operations a plan holds.`);
    return { plan, says: `Took over the plan of the ${earlier.name} for the ${garment.name}` };
  });

/** What the operations of a make would change in a plan: some more, and some that they stand in for. */
export type Proposal = { readonly more: MakingPlan; readonly out: MakingPlan };

/** What the garment's type and make propose for its plan as it stands. */
export const proposalFor = async (reading: Reading, garment: Garment): Promise<Proposal> => {
  const plan = await planBook.of(reading, garment.id);
  const known = await makingBook.operations(reading, garment.typeId);
  const type = await makingBook.type(reading, garment.typeId);
  const proposed = startingPlan(type, garment.make, known, () => '').plan;
  return { more: proposed.filter((one) => !holds(plan, one.name)), out: replacedIn(plan, proposed, known) };
};

const holds = (plan: MakingPlan, name: string): boolean => plan.some((one) => one.name === name);

/** Operations of the plan that the type knows, and that this make does not choose: another alternative stands for them. */
const replacedIn = (plan: MakingPlan, proposed: MakingPlan, known: readonly KnownOperation[]): MakingPlan => {
  const chosen = known.filter((one) => one.insteadOf.length > 0 && holds(proposed, one.name));
  const replaced = new Set(chosen.flatMap(({ insteadOf }) => insteadOf));
  return plan.filter((one) =>
    known.some(
      (other) =>
        other.name === one.name &&
        !holds(proposed, one.name) &&
        (replaced.has(other.no) || (other.insteadOf.length > 0 && other.makes.length > 0)),
    ),
  );
};

/** Carries out the ticked part of a proposal. @param ticked kinds, by their names, of operations to add; ids of those to take out */
export const followProposal = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  ticked: { readonly more: readonly string[]; readonly out: readonly string[] },
): Promise<Done<MakingPlan>> =>
  putPlan(unit, visit, garmentId, async (writing, present) => {
    const garment = await garmentBook.one(writing, garmentId);
    const { more, out } = await proposalFor(writing, garment);
    const leaving = new Set(out.filter(({ id }) => ticked.out.includes(id)).map(({ id }) => id));
    const kept = present.filter(({ id }) => !leaving.has(id));
    const coming = more.filter(({ name }) => ticked.more.includes(kindOf(name)));
    if (coming.length === 0 && leaving.size === 0) throw new Invalid('Tick what should change.');
    const plan = coming.reduce<MakingPlan>(
      (so, one) => addOperation(so, { ...one, id: writing.newId() }),
      kept,
    );
    return { plan, says: `Brought the plan of the ${garment.name} to its make` };
  });
