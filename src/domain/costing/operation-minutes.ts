import { Decimal } from '../kernel/decimal.js';
import type { OperationTime } from './cost-lines.js';

/**
 * How long one operation is planned to take: its minutes as given, or fixed + quantity × minutes per unit.
 *
 * @param time minutes, not negative; `quantity` counts what the operation goes by (each, cm of seam, cm², m) and is 1
 *   when left out
 * @returns minutes, unrounded: 10 fixed + 11 buttonholes × 25 give 285
 * @see test/domain/costing/cost-sheet.test.ts
 */
export const operationMinutes = (time: OperationTime): Decimal =>
  time.minutes ??
  new Decimal(time.fixedMinutes ?? 0).plus(new Decimal(time.quantity ?? 1).times(time.minutesPerUnit ?? 0));
