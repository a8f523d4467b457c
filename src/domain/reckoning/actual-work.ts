import type { WorkedMinutes } from '../bench/worked.js';
import { workOfExtra } from '../commissions/agreed-plan.js';
import type { ExtraWork } from '../commissions/extra.js';
import type { Hour } from '../commissions/landing/columns.js';
import {
  type CostColumn,
  costSoFar,
  type HourOn,
  type MaterialUsed,
} from '../commissions/landing/columns.js';
import type { OverheadBase, OverheadPool } from '../costing/cost-lines.js';
import { MACHINE_MODE } from '../costing/cost-lines.js';
import { rateOfOperation } from '../costing/time-cost.js';
import type { AgreedExtra, JobWork, OverheadUse } from '../costing/variances.js';
import { Decimal } from '../kernel/decimal.js';
import { hoursOf } from '../kernel/minutes.js';
import { Money } from '../kernel/money.js';
import { labourLine, MENDING, machineLine } from './quoted-work.js';

/** A material as it was used: with its waste, less what came back; at what it left the shelf for. */
export type UsedMaterial = MaterialUsed & { readonly name: string; readonly quantity: Decimal };

export type ExpensePaid = { readonly name: string; readonly amount: Money };

/** Own error is done again: its minutes are mending, whatever they were spent on. */
const asMending = (piece: WorkedMinutes): WorkedMinutes =>
  piece.cause === 'own error' ? { ...piece, operationId: undefined, name: MENDING } : piece;

/**
 * What a garment really took, as the variances take it, and the column of the cost sheet that it makes.
 *
 * @param worked minutes of the entries that stand
 * @param used what each material came to
 * @param paid direct expenses
 * @param hourOn dated rates
 * @returns lines whose cost together is the column's cost to the minor unit
 * @see costSoFar; test/domain/reckoning/reckon.test.ts
 */
export const actualWork = (
  worked: readonly WorkedMinutes[],
  used: readonly UsedMaterial[],
  paid: readonly ExpensePaid[],
  hourOn: HourOn,
  currency: string,
): { readonly work: JobWork; readonly column: CostColumn } => {
  const expenses = Money.sum(
    paid.map(({ amount }) => amount),
    currency,
  );
  const column = costSoFar(worked.map(asMending), used, expenses, hourOn);
  const pools = new Map(
    [...worked.map(({ on }) => on), ...used.map(({ on }) => on)]
      .flatMap((on) => hourOn(on).overhead)
      .map((pool) => [pool.name, pool]),
  );
  return {
    column,
    work: {
      operations: column.operations.map((line) => labourLine(line, line.name)),
      machine: column.operations.flatMap((line) => machineLine(line, line.name)),
      materials: used.map(({ name, quantity, cost }) => ({ name, quantity, amount: cost })),
      overhead: [...column.overheadByPool].map(([name, amount]): OverheadUse => {
        const base = pools.get(name)?.base ?? 'productive-hours';
        return { name, baseQuantity: baseOf(base, column), amount };
      }),
      expenses: paid,
    },
  };
};

const baseOf = (base: OverheadBase, column: CostColumn): Decimal => {
  if (base === 'productive-hours') return hoursOf(column.minutes);
  if (base === 'labour-cost') return column.labour.toDecimal();
  if (base === 'material-cost') return column.materials.toDecimal();
  return hoursOf(
    column.operations
      .filter(({ mode }) => mode === MACHINE_MODE)
      .reduce((sum, { minutes }) => sum.plus(minutes), new Decimal(0)),
  );
};

/**
 * An extra as the variances take it: its planned time at the hour of the quote, with the machine and the overhead that go
 * by it, work taken out below nought.
 *
 * @param hour what an hour cost when it was quoted
 * @see workOfExtra; test/domain/reckoning/reckon.test.ts
 */
export const extraAtRates = (
  extra: {
    readonly name: string;
    readonly kind: AgreedExtra['kind'];
    readonly price: Money;
    readonly work: ExtraWork;
  },
  hour: Hour,
): AgreedExtra => {
  const { currency } = extra.price;
  const work = workOfExtra(extra.work);
  const perHourByMode = Object.fromEntries(
    Object.entries(hour.perHourByMode).map(([mode, rate]) => [mode, rate.toDecimal()]),
  );
  const rates = { perHour: hour.perHour.toDecimal(), perHourByMode };
  const operations = (work.operations ?? []).map((line) => ({
    ...line,
    perHour: rateOfOperation({ mode: line.mode ?? '' }, rates),
  }));
  const machinePerHour = hour.machinePerHour.toDecimal();
  const machine = machinePerHour.isZero()
    ? []
    : operations
        .filter(({ mode }) => mode === MACHINE_MODE)
        .map((line) => ({ ...line, perHour: machinePerHour }));
  const sum = (numbers: readonly Decimal[]) =>
    numbers.reduce((total, one) => total.plus(one), new Decimal(0));
  const bases: Readonly<Record<OverheadBase, Decimal>> = {
    'productive-hours': hoursOf(sum(operations.map(({ minutes }) => minutes))),
    'machine-hours': hoursOf(sum(machine.map(({ minutes }) => minutes))),
    'labour-cost': sum(operations.map(({ minutes, perHour }) => hoursOf(minutes).times(perHour))),
    'material-cost': sum((work.materials ?? []).map((line) => line.quantity.times(line.unitCost ?? 0))),
  };
  const overhead = hour.overhead
    .filter(({ base }) => !bases[base].isZero())
    .map(({ name, base, rate }: OverheadPool) => ({ name, baseQuantity: bases[base], rate }));
  return {
    name: extra.name,
    kind: extra.kind,
    price: extra.kind === 'charged' ? extra.price : Money.zero(currency),
    ...work,
    operations,
    machine,
    overhead,
  };
};
