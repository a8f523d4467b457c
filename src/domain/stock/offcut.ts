import type { Decimal } from '../kernel/decimal.js';
import { OutOfRange } from '../kernel/errors.js';

/**
 * How much of an issue an offcut is: its length, or, where it is narrower than the cloth, the length of full width with
 * the same area.
 *
 * @param length of the offcut, in the material's unit
 * @param width of the offcut; none when it has the full width
 * @param fullWidth of the cloth it was cut from, in the unit of `width`; none when nobody measured it
 * @returns quantity in the unit of `length`, rounded to 4 decimals half away from zero
 * @throws OutOfRange when a width is not above 0, or the offcut is wider than the cloth
 * @see test/domain/stock/cloth-room.test.ts
 */
export const offcutQuantity = (
  length: Decimal,
  width: Decimal | undefined,
  fullWidth: Decimal | undefined,
): Decimal => {
  if (width === undefined || fullWidth === undefined) return length;
  if (width.lte(0) || fullWidth.lte(0)) throw new OutOfRange('A width is above 0.');
  if (width.gt(fullWidth)) {
    const text = 'An offcut cannot be wider than the cloth it was cut from.';
    throw new OutOfRange(text, [{ field: 'width', text }]);
  }
  return length.times(width).div(fullWidth).toDecimalPlaces(4);
};
