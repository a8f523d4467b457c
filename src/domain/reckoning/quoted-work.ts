import type { AddedTime, CostSheet, OperationLine, PoolLine } from '../costing/cost-lines.js';
import type { OverheadUse, PricedWork, TimedLine } from '../costing/variances.js';
import type { Money } from '../kernel/money.js';

/** Work taken out and done again, under one name in the plan and on the bench. */
export const MENDING = 'mending';
/** What was kept back for the unexpected. */
export const KEPT_BACK = 'kept back';

/** What a quoted price rested on, line by line. */
export type QuotedSheet = {
  readonly parts: Pick<CostSheet['parts'], 'operations' | 'pools' | 'expenses'> & {
    readonly materials: readonly Pick<
      CostSheet['parts']['materials'][number],
      'name' | 'quantity' | 'unitCost' | 'cost'
    >[];
  };
  readonly mending: Pick<AddedTime, 'operations' | 'pools'>;
  readonly keptBack: Pick<AddedTime, 'operations' | 'pools'>;
};

/**
 * A quoted cost sheet as the variances take it: operations at even chance, mending and what was kept back as lines of
 * their own, machine time beside them, overhead in its pools, materials at book cost.
 *
 * @param price the quoted price before tax
 * @returns lines whose cost together is the sheet's cost to the minor unit
 * @see variancesOf; test/domain/reckoning/reckon.test.ts
 */
export const quotedWork = (sheet: QuotedSheet, price: Money): PricedWork => {
  const { parts, mending, keptBack } = sheet;
  return {
    operations: [
      ...parts.operations.map((line) => labourLine(line, line.name)),
      ...mending.operations.map((line) => labourLine(line, MENDING)),
      ...keptBack.operations.map((line) => labourLine(line, KEPT_BACK)),
    ],
    machine: [
      ...parts.operations.flatMap((line) => machineLine(line, line.name)),
      ...mending.operations.flatMap((line) => machineLine(line, MENDING)),
      ...keptBack.operations.flatMap((line) => machineLine(line, KEPT_BACK)),
    ],
    materials: parts.materials.map(({ name, quantity, unitCost, cost }) => ({
      name,
      quantity,
      unitCost,
      amount: cost,
    })),
    overhead: [...parts.pools, ...mending.pools, ...keptBack.pools].map(poolLine),
    expenses: parts.expenses,
    price,
  };
};

/** The labour of an operation, under a name. */
export const labourLine = (line: OperationLine, name: string): TimedLine => ({
  name,
  mode: line.mode,
  minutes: line.minutes,
  perHour: line.perHour,
  amount: line.labour,
});

/** Its machine time, where it has any. */
export const machineLine = (line: OperationLine, name: string): TimedLine[] =>
  line.machine.isZero() ? [] : [{ name, mode: line.mode, minutes: line.minutes, amount: line.machine }];

const poolLine = ({ name, baseQuantity, rate, amount }: PoolLine): OverheadUse => ({
  name,
  baseQuantity,
  rate,
  amount,
});
