import { quantityWithWaste } from '../costing/material-cost.js';
import type { JobWork } from '../costing/variances.js';
import { Decimal } from '../kernel/decimal.js';
import { addOperation, type MakingPlan } from '../making/making-plan.js';
import { minutesByMode } from '../making/plan-minutes.js';
import { agreedExtras, type Extra, type ExtraLine, type ExtraWork } from './extra.js';
import type { ExpenseLine, MaterialLine, PlannedGarment } from './garment.js';

/*
 * How the rows of a making plan and the extras hang together. An agreed extra is put into the plan: its operations become
 * lines of the plan, its materials and expenses lines of the garment, under the very keys they have in the extra. So the
 * bench clocks them like any other line, and a line is known as an extra's by its key alone (`extraOfLine`). What an extra
 * takes out leaves the plan whole; minutes worked on it before keep their name. Rows may be changed at the bench afterwards,
 * the extra keeps what was agreed.
 */

/** What a garment is planned to take. */
export type PlannedWork = Pick<PlannedGarment, 'plan' | 'materials' | 'expenses'>;

const without = <Line extends { readonly id: string }>(
  lines: readonly Line[],
  out: readonly ExtraLine<Line>[],
): Line[] => {
  const gone = new Set(out.filter(({ sign }) => sign === -1).map(({ line }) => line.id));
  return lines.filter(({ id }) => !gone.has(id));
};

const put = <Line extends { readonly id: string }>(
  lines: readonly Line[],
  added: readonly ExtraLine<Line>[],
): Line[] => {
  const present = new Set(lines.map(({ id }) => id));
  return [
    ...lines,
    ...added.filter(({ sign, line }) => sign === 1 && !present.has(line.id)).map(({ line }) => line),
  ];
};

/**
 * The plan with one extra: what it takes out has left, what it puts in stands after the last operation of its stage.
 * Putting the same extra in a second time changes nothing.
 *
 * @see test/domain/commissions/agreed-plan.test.ts
 */
export const withExtra = <Work extends PlannedWork>(
  planned: Work,
  { operations, materials, expenses }: ExtraWork,
): Work => {
  let { plan }: { plan: MakingPlan } = planned;
  for (const { sign, line } of operations)
    if (sign === 1 && !plan.some(({ id }) => id === line.id)) plan = addOperation(plan, line);
  return {
    ...planned,
    plan: without(plan, operations),
    materials: put<MaterialLine>(without(planned.materials, materials), materials),
    expenses: put<ExpenseLine>(without(planned.expenses, expenses), expenses),
  };
};

const theOtherWay = ({ operations, materials, expenses }: ExtraWork): ExtraWork => {
  const turn = <Line>(lines: readonly ExtraLine<Line>[]): ExtraLine<Line>[] =>
    lines.map(({ sign, line }) => ({ sign: sign === 1 ? -1 : 1, line }));
  return { operations: turn(operations), materials: turn(materials), expenses: turn(expenses) };
};

/** The plan without one extra: what it put in has left, what it took out is back. */
export const withoutExtra = <Work extends PlannedWork>(planned: Work, work: ExtraWork): Work =>
  withExtra(planned, theOtherWay(work));

/**
 * The agreed plan of a garment: what was quoted, and every extra agreed or given since, in the order they were agreed.
 *
 * @param quoted the accepted quote's plan; where none was accepted, {@link quotedFromRows} of the plan as it stands
 * @param extras of this garment, in any state
 * @returns operations, materials and expenses that are to be made now; what was taken out is not among them
 * @see design 2-costing.md sections 2 and 5; test/domain/commissions/agreed-plan.test.ts
 */
export const agreedPlan = <Work extends PlannedWork>(quoted: Work, extras: readonly Extra[]): Work =>
  agreedExtras(extras).reduce((planned, { work }) => withExtra(planned, work), quoted);

/**
 * What stands in the place of a quote where none was accepted: the plan as it stands, without what the extras put in and with
 * what they took out.
 *
 * `agreedPlan(quotedFromRows(rows, extras), extras)` holds the lines of `rows`.
 *
 * @see test/domain/commissions/agreed-plan.test.ts
 */
export const quotedFromRows = <Work extends PlannedWork>(rows: Work, extras: readonly Extra[]): Work =>
  agreedExtras(extras).reduceRight((planned, { work }) => withoutExtra(planned, work), rows);

/** Which extra put a line into the plan, by the line's key: of operations, materials and expenses. */
export const extraOfLine = (extras: readonly Extra[]): ReadonlyMap<string, Extra> =>
  new Map(
    agreedExtras(extras).flatMap((extra) =>
      [...extra.work.operations, ...extra.work.materials, ...extra.work.expenses]
        .filter(({ sign }) => sign === 1)
        .map(({ line }): [string, Extra] => [line.id, extra]),
    ),
  );

/**
 * The planned work of an extra as the variances take it: by operation and mode, work taken out below nought, waste in the
 * quantities of materials, materials at book cost.
 *
 * Time carries no rate here; `labour efficiency` takes the planned one.
 *
 * @returns minutes whole and signed, quantities unrounded and signed
 * @see variancesOf; test/domain/commissions/agreed-plan.test.ts
 */
export const workOfExtra = ({ operations, materials, expenses }: ExtraWork): JobWork => ({
  operations: operations.flatMap(({ sign, line }) =>
    minutesByMode(line).map(({ mode, minutes }) => ({
      name: line.name,
      mode,
      minutes: new Decimal(minutes).times(sign),
    })),
  ),
  materials: materials.map(({ sign, line }) => ({
    name: line.name,
    quantity: quantityWithWaste(line.quantity, line.wasteShare, line.wasteOf).times(sign),
    unitCost: line.unitCost,
  })),
  expenses: expenses.map(({ sign, line }) => ({
    name: line.name,
    amount: sign === 1 ? line.amount : line.amount.negated(),
  })),
});
