import { Decimal } from '../kernel/decimal.js';
import type { StockEntry } from './entry.js';
import type { Lot } from './lot.js';

/** So much of a material, or of one of its lots, promised to a garment. */
export type Promised = {
  readonly id: string;
  readonly version: number;
  readonly materialId: string;
  /** The very piece; none when any of the material will do. */
  readonly lotId: string | undefined;
  readonly commissionId: string;
  readonly garmentId: string;
  readonly lineId: string | undefined;
  readonly quantity: Decimal;
  readonly note: string;
};

/** A promise with what of it is still to be issued. */
export type OpenPromise = Promised & { readonly open: Decimal };

/**
 * What of each promise is still open: promised less what the garment has had of the material, first promise first.
 *
 * @param promises of one material
 * @param movements of the same material that went to a garment or came back from one
 * @returns the promises with something left to issue, in their order
 * @see test/domain/stock/cloth-room.test.ts
 */
export const openPromises = (
  promises: readonly Promised[],
  movements: readonly StockEntry[],
): OpenPromise[] => {
  const had = new Map<string, Decimal>();
  for (const { garmentId, quantity } of movements)
    if (garmentId) had.set(garmentId, (had.get(garmentId) ?? new Decimal(0)).minus(quantity));
  return promises
    .map((promise) => {
      const served = Decimal.max(0, Decimal.min(promise.quantity, had.get(promise.garmentId) ?? 0));
      had.set(promise.garmentId, (had.get(promise.garmentId) ?? new Decimal(0)).minus(served));
      return { ...promise, open: promise.quantity.minus(served) };
    })
    .filter(({ open }) => open.gt(0));
};

/** What stands in the way of a further promise or issue: who has been promised it, and how much is free. */
export type PromisedTwice = { readonly free: Decimal; readonly others: readonly OpenPromise[] };

/**
 * Would this much be promised twice?
 *
 * @param lots of the material that may serve it; the one lot when a piece is named
 * @param open all open promises of the material
 * @param garmentId whose own promise does not stand in its own way
 * @returns undefined when enough is free
 * @see test/domain/stock/cloth-room.test.ts
 */
export const promisedTwice = (
  lots: readonly Lot[],
  open: readonly OpenPromise[],
  garmentId: string | undefined,
  quantity: Decimal,
  lotId?: string,
): PromisedTwice | undefined => {
  const pieces = lotId === undefined ? lots : lots.filter(({ id }) => id === lotId);
  const there = pieces.reduce((sum, { left }) => sum.plus(left), new Decimal(0));
  const others = open.filter(
    (promise) =>
      promise.garmentId !== garmentId &&
      (lotId === undefined || promise.lotId === lotId || promise.lotId === undefined),
  );
  const taken = others
    // A promise of any piece may be served by another one; only what no other can serve counts against a named piece.
    .reduce((sum, { open: still, lotId: own }) => {
      if (lotId === undefined || own === lotId) return sum.plus(still);
      const elsewhere = lots
        .filter(({ id }) => id !== lotId)
        .reduce((all, { left }) => all.plus(left), new Decimal(0));
      return sum.plus(Decimal.max(0, still.minus(elsewhere)));
    }, new Decimal(0));
  const free = Decimal.max(0, there.minus(taken));
  return taken.gt(0) && quantity.gt(free) ? { free, others } : undefined;
};
