import type { CurrencyCode } from '../kernel/currency.js';
import { Decimal } from '../kernel/decimal.js';
import { hoursOf } from '../kernel/minutes.js';
import { Money } from '../kernel/money.js';
import {
  type AddedTime,
  type CostedOperation,
  type CostSheetInput,
  type LabourRates,
  MACHINE_MODE,
  type OperationLine,
  type OverheadPool,
  type PoolLine,
} from './cost-lines.js';
import { roundOnce } from './round-once.js';

/** What a set of minutes costs: labour and machine by operation, overhead by pool. */
export type TimeCost = {
  readonly minutes: Decimal;
  readonly operations: readonly OperationLine[];
  readonly pools: readonly PoolLine[];
  readonly labour: Money;
  readonly machine: Money;
  readonly overhead: Money;
};

/**
 * The labour rate of an operation: its own, else its mode's, else the plain one.
 *
 * @returns money an hour, major units, unrounded
 */
export const rateOfOperation = (
  operation: Pick<CostedOperation, 'mode' | 'perHour'>,
  labour: LabourRates,
): Decimal => {
  const byMode = labour.perHourByMode;
  const ofMode = byMode && Object.hasOwn(byMode, operation.mode) ? byMode[operation.mode] : undefined;
  return operation.perHour ?? ofMode ?? labour.perHour;
};

const totalOf = (numbers: readonly Decimal[]): Decimal =>
  numbers.reduce((sum, number) => sum.plus(number), new Decimal(0));

type Bases = { minutes: Decimal; machineMinutes: Decimal; labour: Money; materials: Money };

const baseQuantityOf = (pool: OverheadPool, bases: Bases): Decimal => {
  if (pool.base === 'productive-hours') return hoursOf(bases.minutes);
  if (pool.base === 'machine-hours') return hoursOf(bases.machineMinutes);
  return pool.base === 'labour-cost' ? bases.labour.toDecimal() : bases.materials.toDecimal();
};

/**
 * The overhead of a garment, pool by pool: base × rate, each pool rounded once.
 *
 * @param pools rate as money per hour for hour bases, as a share for cost bases
 * @param bases minutes worked, minutes on the machine, labour and material cost of the garment
 * @returns one line per pool, in the order given
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), section 4.5; test/reference/costing/job-costing.test.ts
 */
export const overheadLines = (
  pools: readonly OverheadPool[],
  bases: Bases,
  currency: CurrencyCode,
): PoolLine[] =>
  pools.map((pool) => {
    const baseQuantity = baseQuantityOf(pool, bases);
    return { ...pool, baseQuantity, amount: roundOnce(baseQuantity.times(pool.rate), currency) };
  });

/**
 * What the operations cost at the minutes given: labour and machine per operation, overhead per pool, each rounded once.
 *
 * @param input rates, pools and operations of the garment
 * @param minutes one number of minutes per operation, in their order
 * @param materials book cost of the materials, for pools that go by it
 * @returns lines and their sums; money rounded half away from zero per line
 * @see test/domain/costing/cost-sheet.test.ts
 */
export const costTime = (input: CostSheetInput, minutes: readonly Decimal[], materials: Money): TimeCost => {
  const { currency } = input;
  const machineRate = input.machinePerHour ?? new Decimal(0);
  const operations = (input.operations ?? []).map((operation, index): OperationLine => {
    const spent = minutes[index] ?? new Decimal(0);
    const hours = hoursOf(spent);
    const perHour = rateOfOperation(operation, input.labour);
    return {
      name: operation.name,
      mode: operation.mode,
      minutes: spent,
      perHour,
      labour: roundOnce(hours.times(perHour), currency),
      machine:
        operation.mode === MACHINE_MODE
          ? roundOnce(hours.times(machineRate), currency)
          : Money.zero(currency),
    };
  });
  const labour = Money.sum(
    operations.map((line) => line.labour),
    currency,
  );
  const total = totalOf(operations.map((line) => line.minutes));
  const machineMinutes = totalOf(
    operations.filter((line) => line.mode === MACHINE_MODE).map((line) => line.minutes),
  );
  const pools = overheadLines(
    input.overhead ?? [],
    { minutes: total, machineMinutes, labour, materials },
    currency,
  );
  return {
    minutes: total,
    operations,
    pools,
    labour,
    machine: Money.sum(
      operations.map((line) => line.machine),
      currency,
    ),
    overhead: Money.sum(
      pools.map((line) => line.amount),
      currency,
    ),
  };
};

/**
 * What one set of minutes costs beyond another of the same operations, line by line, so that the parts add up exactly.
 *
 * @returns `more` − `less` in minutes, labour, machine and overhead
 */
export const timeBeyond = (more: TimeCost, less: TimeCost): AddedTime => {
  const labour = more.labour.minus(less.labour);
  const machine = more.machine.minus(less.machine);
  const overhead = more.overhead.minus(less.overhead);
  return {
    minutes: more.minutes.minus(less.minutes),
    labour,
    machine,
    overhead,
    money: labour.plus(machine).plus(overhead),
    operations: more.operations.map((line, index) => {
      const from = less.operations[index] ?? line;
      return {
        ...line,
        minutes: line.minutes.minus(from.minutes),
        labour: line.labour.minus(from.labour),
        machine: line.machine.minus(from.machine),
      };
    }),
    pools: more.pools.map((line, index) => {
      const from = less.pools[index] ?? line;
      return {
        ...line,
        baseQuantity: line.baseQuantity.minus(from.baseQuantity),
        amount: line.amount.minus(from.amount),
      };
    }),
  };
};
