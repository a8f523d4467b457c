import type { GarmentType } from './garment-type.js';
import { type KnownOperation, operationFrom } from './known-operation.js';
import type { MakingPlan } from './making-plan.js';
import type { Make } from './mode.js';

/** A plan to begin with, and what to tell the maker about it. */
export type StartingPlan = { readonly plan: MakingPlan; readonly remarks: readonly string[] };

const chosenFor = (known: readonly KnownOperation[], make: Make): readonly KnownOperation[] => {
  const inPlan = known.filter((one) => !one.isMenu).sort((a, b) => a.no - b.no);
  const chosen = inPlan.filter((one) => one.isAlternative && one.makes.includes(make));
  const replaced = new Set(chosen.flatMap((one) => one.insteadOf));
  return inPlan.filter((one) => (one.isAlternative ? chosen.includes(one) : !replaced.has(one.no)));
};

const namesOf = (lines: readonly KnownOperation[]): string => lines.map(({ name }) => `“${name}”`).join(', ');

const remarksOn = (type: GarmentType, make: Make, lines: readonly KnownOperation[]): readonly string[] => {
  if (type.isMenu) return [`${type.name} is a price list: choose the jobs that are wanted.`];
  const byMachine = lines.filter((one) => one.mode === 'machine');
  if (make === 'all-hand' && byMachine.length > 0)
    return [
      `No hand time is known for ${namesOf(byMachine)}: the machine’s time stands until you write your own.`,
    ];
  const byHand = lines.filter((one) => one.mode === 'hand' && one.stage === 'make');
  if (make === 'machine' && byHand.length > 0)
    return [
      `No machine time is known for ${namesOf(byHand)}: the hand’s time stands until you write your own.`,
    ];
  return [];
};

/**
 * The plan a garment of this type begins with: the type's usual operations in order, where the make chooses among the
 * alternatives the data knows (seams by hand for *all hand*, a shirt seamed by machine for *machine*).
 *
 * Optional operations (a toile, embroidery) are left out. Where the data knows no time for a make, the other time stands
 * and a remark says so: no factor between hand and machine is invented.
 *
 * @param type the garment type
 * @param make how it is to be made
 * @param known the operations the studio knows for this type
 * @param nextId gives a new id each time it is asked
 * @returns the plan, empty for a price list, and remarks in words
 * @see test/storage/starter/read-starter.test.ts
 */
export const startingPlan = (
  type: GarmentType,
  make: Make,
  known: readonly KnownOperation[],
  nextId: () => string,
): StartingPlan => {
  const lines = chosenFor(
    known.filter((one) => one.garmentType === type.id),
    make,
  );
  const plan = type.isMenu ? [] : lines.map((one) => operationFrom(one, nextId()));
  return { plan, remarks: remarksOn(type, make, lines) };
};

/** The lines of a price list (alterations), in order. */
export const menuOf = (type: GarmentType, known: readonly KnownOperation[]): readonly KnownOperation[] =>
  known.filter((one) => one.garmentType === type.id && one.isMenu).sort((a, b) => a.no - b.no);
