import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';
import { costInputTroubles, refuseIfAny } from './check-cost-input.js';
import type { CostSheet, CostSheetInput, OperationLine, PoolLine } from './cost-lines.js';
import { costMaterial } from './material-cost.js';
import { operationMinutes } from './operation-minutes.js';
import { costTime, timeBeyond } from './time-cost.js';

const minutesByMode = (lines: readonly OperationLine[]): Map<string, Decimal> => {
  const byMode = new Map<string, Decimal>();
  for (const line of lines)
    byMode.set(line.mode, (byMode.get(line.mode) ?? new Decimal(0)).plus(line.minutes));
  return byMode;
};

const amountByPool = (pools: readonly PoolLine[]): Map<string, Money> => {
  const byPool = new Map<string, Money>();
  for (const pool of pools) byPool.set(pool.name, byPool.get(pool.name)?.plus(pool.amount) ?? pool.amount);
  return byPool;
};

/**
 * Minutes at the chosen certainty: given per operation, or the kept-back total spread by the operations' shares;
 * undefined where nothing is kept back.
 */
const pricedMinutes = (input: CostSheetInput, even: readonly Decimal[]): Decimal[] | undefined => {
  const operations = input.operations ?? [];
  const { keptBackMinutes } = input;
  if (!keptBackMinutes && operations.every((each) => each.pricedMinutes === undefined)) return undefined;
  const total = even.reduce((sum, minutes) => sum.plus(minutes), new Decimal(0));
  const stretch =
    keptBackMinutes && !total.isZero() ? total.plus(keptBackMinutes).div(total) : new Decimal(1);
  return even.map((minutes, index) => operations[index]?.pricedMinutes ?? minutes.times(stretch));
};

/**
 * What one garment costs: materials + labour + machine + overhead + expenses, with mending and what is kept back for
 * the unexpected as lines of their own, and every line behind every sum.
 *
 * Mending adds its share of the even-chance minutes, in the modes of the plan. What is kept back is the cost of the
 * priced minutes beyond the even-chance minutes: labour, machine and the overhead that goes by them.
 *
 * @param input rates in major units an hour, minutes and quantities not negative
 * @returns the sheet; each operation, material, pool and expense rounded once half away from zero, sections are their
 *   sums, materials at book cost
 * @throws Invalid naming every field that cannot be meant; OutOfRange when an amount is too large to keep exactly
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), section 4.5; test/reference/costing/job-costing.test.ts
 */
export const drawUpCostSheet = (input: CostSheetInput): CostSheet => {
  refuseIfAny(costInputTroubles(input));
  const { currency } = input;
  const expenseLines = input.expenses ?? [];
  const materialLines = (input.materials ?? []).map((material) =>
    costMaterial(material, currency, input.wasteOf),
  );
  const materials = Money.sum(
    materialLines.map((line) => line.cost),
    currency,
  );
  const expenses = Money.sum(
    expenseLines.map((expense) => expense.amount),
    currency,
  );

  const even = (input.operations ?? []).map(operationMinutes);
  const share = input.mendingShare ?? new Decimal(0);
  const again = (minutes: readonly Decimal[]) =>
    minutes.map((each, index) => each.plus(share.times(even[index] ?? 0)));
  const atCertainty = pricedMinutes(input, even);
  const plain = costTime(input, even, materials);
  const mended = share.isZero() ? plain : costTime(input, again(even), materials);
  const priced = atCertainty ? costTime(input, again(atCertainty), materials) : mended;

  return {
    currency,
    minutes: { total: plain.minutes, byMode: minutesByMode(plain.operations), priced: priced.minutes },
    materials,
    labour: plain.labour,
    machine: plain.machine,
    overhead: plain.overhead,
    overheadByPool: amountByPool(plain.pools),
    expenses,
    mending: timeBeyond(mended, plain),
    keptBack: timeBeyond(priced, mended),
    cost: Money.sum([materials, priced.labour, priced.machine, priced.overhead, expenses], currency),
    stashUplift: Money.sum(
      materialLines.map((line) => line.uplift),
      currency,
    ),
    parts: {
      operations: plain.operations,
      materials: materialLines,
      pools: plain.pools,
      expenses: expenseLines,
    },
  };
};

/** Labour of a sheet with the labour of mending and of what is kept back. */
export const wholeLabour = (sheet: CostSheet): Money =>
  sheet.labour.plus(sheet.mending.labour).plus(sheet.keptBack.labour);
