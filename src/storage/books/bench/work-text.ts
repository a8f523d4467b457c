import type { ExtraLine, ExtraWork } from '../../../domain/commissions/extra.js';
import type { ExpenseLine, MaterialLine } from '../../../domain/commissions/garment.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { Money } from '../../../domain/kernel/money.js';
import type { Operation } from '../../../domain/making/operation.js';
import { documentText, type Kept } from '../papers/quote-text.js';

/** An operation out of a kept document, such as a quote's costs. */
export const operationOf = ({ startingSpread, handStitch, ...kept }: Kept<Operation>): Operation => ({
  ...kept,
  modeShares: kept.modeShares.map(({ mode, share }) => ({ mode, share: new Decimal(share) })),
  quantity: new Decimal(kept.quantity),
  fixedMinutes: new Decimal(kept.fixedMinutes),
  minutesPerUnit: new Decimal(kept.minutesPerUnit),
  ...(startingSpread === undefined ? {} : { startingSpread: new Decimal(startingSpread) }),
  ...(handStitch === undefined
    ? {}
    : { handStitch: decimalsIn(handStitch) as Operation['handStitch'] & object }),
});

/** Every text in a document of figures as a decimal. */
const decimalsIn = (kept: unknown): unknown =>
  typeof kept === 'object' && kept !== null
    ? Object.fromEntries(Object.entries(kept).map(([name, value]) => [name, decimalsIn(value)]))
    : new Decimal(kept as string);

/** A material out of a kept document. */
export const materialOf = (kept: Kept<MaterialLine>): MaterialLine => ({
  ...kept,
  quantity: new Decimal(kept.quantity),
  unitCost: new Decimal(kept.unitCost),
  wasteShare: new Decimal(kept.wasteShare),
  replacementUnitCost:
    kept.replacementUnitCost === undefined ? undefined : new Decimal(kept.replacementUnitCost),
});

/** An expense out of a kept document. */
export const expenseOf = (kept: Kept<ExpenseLine>, currency: string): ExpenseLine => ({
  ...kept,
  amount: Money.parse(kept.amount, currency),
});

/** The work of an extra as JSON. */
export const workText = (work: ExtraWork): string => documentText(work);

/** The work of an extra, read back. */
export const workOf = (text: string, currency: string): ExtraWork => {
  const kept = JSON.parse(text) as {
    operations: ExtraLine<Kept<Operation>>[];
    materials: ExtraLine<Kept<MaterialLine>>[];
    expenses: ExtraLine<Kept<ExpenseLine>>[];
  };
  return {
    operations: kept.operations.map(({ sign, line }) => ({ sign, line: operationOf(line) })),
    materials: kept.materials.map(({ sign, line }) => ({ sign, line: materialOf(line) })),
    expenses: kept.expenses.map(({ sign, line }) => ({ sign, line: expenseOf(line, currency) })),
  };
};
