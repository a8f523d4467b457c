import { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import { QUANTITY_UNITS } from '../kernel/quantity.js';
import type { StockMethod } from './movements.js';
import { putBack, quantityOf, type StockLot, type Taken, takeFrom } from './stock-lot.js';

/** What was moved, and how the lots stand after it, in their order. */
export type Moved = { readonly moved: readonly Taken[]; readonly after: readonly StockLot[] };

const worthOf = (lots: readonly StockLot[], currency: string): Money =>
  Money.sum(
    lots.map((lot) => lot.value),
    currency,
  );

/**
 * The value of lots that flow together, spread over them by quantity, so that each carries the moving average.
 *
 * @param lots at least one; the value of all is kept to the minor unit
 * @returns the same lots; values by largest remainder; a lot of nothing is worth nothing
 * @see test/properties/cloth-room.test.ts
 */
export const atAverage = (lots: readonly StockLot[], currency: string): StockLot[] => {
  if (quantityOf(lots).isZero()) return [...lots];
  const values = worthOf(lots, currency).allocate(lots.map(({ quantity }) => quantity));
  return lots.map((lot, index) => ({ ...lot, value: values[index] ?? lot.value }));
};

const oldestFirst = (lots: readonly StockLot[], quantity: Decimal): Moved => {
  let wanted = quantity;
  const moved: Taken[] = [];
  const after = lots.map((lot) => {
    const part = Decimal.min(wanted, lot.quantity);
    if (part.lte(0)) return lot;
    const { taken, left } = takeFrom(lot, part);
    wanted = wanted.minus(part);
    moved.push(taken);
    return left;
  });
  return { moved, after };
};

const fromPool = (
  lots: readonly StockLot[],
  lot: string | undefined,
  quantity: Decimal,
  currency: string,
) => {
  const pool = { lot: '', quantity: quantityOf(lots), value: worthOf(lots, currency) };
  const { taken, left } = takeFrom(pool, quantity);
  const named = lot === undefined ? lots : lots.filter((one) => one.lot === lot);
  const pieces = oldestFirst(named, quantity).moved;
  const costs = taken.cost.allocate(pieces.map((piece) => piece.quantity));
  const moved = pieces.map((piece, index) => ({ ...piece, cost: costs[index] ?? piece.cost }));
  const quantities = lots.map((one) =>
    one.quantity.minus(moved.find((piece) => piece.lot === one.lot)?.quantity ?? 0),
  );
  const values = left.quantity.isZero()
    ? lots.map(() => Money.zero(currency))
    : left.value.allocate(quantities);
  const after = lots.map((one, index) => ({
    lot: one.lot,
    quantity: quantities[index] ?? one.quantity,
    value: values[index] ?? one.value,
  }));
  return { moved, after };
};

/** `14 pieces`, `1 pair`, `3.2 m`. */
const counted = (amount: Decimal, unit: string): string => {
  const isOneByOne = unit === 'piece' || unit === 'pair' || unit === 'set';
  return `${amount.toFixed()} ${isOneByOne && !amount.eq(1) ? QUANTITY_UNITS[unit].words : unit}`;
};

/** The trouble of asking for more than is there, with what is there and the way on. @param unit as written: `m`, `piece` */
export const notEnough = (asked: Decimal, there: Decimal, unit: string): Invalid => {
  const text =
    `There ${there.eq(1) ? 'is' : 'are'} ${counted(there, unit)} here, and ${counted(asked, unit)} ${asked.eq(1) ? 'was' : 'were'} asked for. ` +
    'If the tape says otherwise, put it down as measured again first.';
  return new Invalid(text, [{ field: 'quantity', text }], 'shortfall');
};

/**
 * Takes a quantity off the shelf at its cost: of the very piece, of the oldest first, or at the moving average.
 *
 * Under the average the value is carried by all lots together: cost = value × taken / left, the last taking the
 * remainder, and what stays is spread over the lots again. A lot that is named is the piece the cloth is cut from.
 *
 * @param lots of one material that may be taken, oldest first
 * @param quantity above 0
 * @param lot the piece; must be named where the cost is that of the very piece
 * @returns what was taken, lot by lot, and the lots after it; Σ costs + Σ values left = Σ values before, exactly
 * @throws Invalid with code `shortfall` and the quantity that is there when it is less
 * @see Principles of Accounting, Vol. 1 (OpenStax, 2019), sections 10.1 to 10.3; IAS 2, paragraphs 23 to 25;
 *   test/reference/stock/shelf.test.ts; test/properties/cloth-room.test.ts
 */
export const takeOffShelf = (
  lots: readonly StockLot[],
  method: StockMethod,
  quantity: Decimal,
  currency: string,
  { lot, unit = '' }: { readonly lot?: string | undefined; readonly unit?: string } = {},
): Moved => {
  if (quantity.lte(0)) throw Invalid.field('quantity', 'A quantity moved must be above 0.');
  if (method === 'lot' && lot === undefined) throw Invalid.field('lot', 'Say which piece it is cut from.');
  if (method === 'first-in-first-out' && lot !== undefined)
    throw Invalid.field('lot', 'This material goes first in, first out: leave the piece open.');
  const from = lot === undefined ? lots : lots.filter((one) => one.lot === lot);
  const there = quantityOf(from);
  if (there.lt(quantity)) throw notEnough(quantity, there, unit);
  if (method === 'weighted-average') return fromPool(lots, lot, quantity, currency);
  const { moved, after } = oldestFirst(from, quantity);
  const changed = new Map(after.map((one) => [one.lot, one]));
  return { moved, after: lots.map((one) => changed.get(one.lot) ?? one) };
};

/**
 * Gives back part of what an issue took, the last piece taken first, each at the cost it left with.
 *
 * @param out what of the issue is still out, in the order it was taken
 * @param quantity above 0
 * @returns what comes back, with its cost; the last of it takes the remainder
 * @throws Invalid with code `shortfall` when more comes back than is out
 * @see test/reference/stock/shelf.test.ts
 */
export const partOfIssue = (out: readonly Taken[], quantity: Decimal, unit = ''): Taken[] => {
  if (quantity.lte(0)) throw Invalid.field('quantity', 'A quantity moved must be above 0.');
  const there = quantityOf(out);
  if (there.lt(quantity)) {
    const text = `Only ${there.toFixed()} ${unit} of this are still out, and ${quantity.toFixed()} ${unit} would come back.`;
    throw new Invalid(text, [{ field: 'quantity', text }], 'shortfall');
  }
  let wanted = quantity;
  return [...out].reverse().flatMap((piece) => {
    const part = Decimal.min(wanted, piece.quantity);
    if (part.lte(0)) return [];
    wanted = wanted.minus(part);
    return [takeFrom({ ...piece, value: piece.cost }, part).taken];
  });
};

/** Lots after something came back to them. */
export const putOnShelf = (lots: readonly StockLot[], back: readonly Taken[]): StockLot[] =>
  lots.map((lot) => back.filter((one) => one.lot === lot.lot).reduce(putBack, lot));
