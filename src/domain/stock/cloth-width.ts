import type { Decimal } from '../kernel/decimal.js';
import { OutOfRange } from '../kernel/errors.js';

/**
 * The length of another width that holds the same area: length × width / other width.
 *
 * Area only: the lay decides. A width that no longer takes two pieces side by side needs far more than this says, so
 * whoever shows the figure says so.
 *
 * @param length of the cloth known, any unit, not negative
 * @param width and `otherWidth` in one unit, above 0
 * @returns length in the unit given, unrounded
 * @throws OutOfRange when a width is not above 0 or the length is below 0
 * @see test/reference/costing/worked-sums.test.ts WS-15
 */
export const lengthAtWidth = (length: Decimal, width: Decimal, otherWidth: Decimal): Decimal => {
  if (length.lt(0) || width.lte(0) || otherWidth.lte(0)) {
    throw new OutOfRange('A cloth has a width above 0 and a length of 0 or more.');
  }
  return length.times(width).div(otherWidth);
};
