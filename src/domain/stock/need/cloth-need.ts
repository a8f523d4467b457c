import { Decimal } from '../../kernel/decimal.js';
import { Invalid, OutOfRange } from '../../kernel/errors.js';

/** Said wherever a length is reckoned without a lay. */
export const ONLY_THE_LAY_DECIDES =
  'Only the lay decides: a width that no longer takes two pieces side by side needs far more than this. Lay the pattern before you buy.';

const mustBeAbove = (value: Decimal, field: string): void => {
  if (value.lte(0)) throw Invalid.field(field, 'This must be above 0.');
};

/**
 * A length up to the next multiple of a step, as shops cut: to the eighth of a yard, to ten centimetres.
 *
 * @param step above 0, in the unit of the length
 * @returns the smallest multiple that is not shorter
 * @see test/reference/stock/need.test.ts FB-05
 */
export const upToStep = (length: Decimal, step: Decimal): Decimal => {
  mustBeAbove(step, 'step');
  return length.div(step).ceil().times(step);
};

/**
 * The length of cloth for pieces of one size laid side by side: ⌈pieces / ⌊width / piece width⌋⌉ rows.
 *
 * @param pieces how many, a whole number above 0
 * @param length, `width` of one piece, `clothWidth` in one unit, above 0
 * @returns length in the unit given, unrounded
 * @throws Invalid when a piece is wider than the cloth
 * @see test/reference/stock/need.test.ts FB-10
 */
export const lengthForPieces = (
  pieces: number,
  length: Decimal,
  width: Decimal,
  clothWidth: Decimal,
): Decimal => {
  for (const [value, field] of [
    [new Decimal(pieces), 'pieces'],
    [length, 'length'],
    [width, 'width'],
    [clothWidth, 'clothWidth'],
  ] as const)
    mustBeAbove(value, field);
  const beside = clothWidth.div(width).floor();
  if (beside.isZero()) throw Invalid.field('width', 'One piece is wider than the cloth.');
  return new Decimal(pieces).div(beside).ceil().times(length);
};

/**
 * What a pattern repeat costs in length: one repeat for each piece that lies above another.
 *
 * @param repeat length of the repeat, not negative
 * @param stacked pieces one above the other, a whole number
 * @returns extra length in the unit of the repeat
 * @see test/reference/stock/need.test.ts FB-07
 */
export const extraForRepeat = (repeat: Decimal, stacked: number): Decimal => {
  if (repeat.lt(0) || stacked < 0) throw new OutOfRange('A repeat and a number of pieces are not below 0.');
  return repeat.times(stacked);
};

/**
 * The length to cut so that the finished length is left after shrinking: finished / (1 − shrinkage).
 *
 * @param shrinkage as a share, from 0 to below 1
 * @returns unrounded, in the unit given
 * @throws OutOfRange when nothing would be left
 * @see from memory, no source; test/domain/stock/cloth-room.test.ts
 */
export const beforeShrinking = (finished: Decimal, shrinkage: Decimal): Decimal => {
  if (shrinkage.lt(0) || shrinkage.gte(1)) {
    const text = 'Cloth shrinks by 0 % or more, and by less than all of it.';
    throw new OutOfRange(text, [{ field: 'shrinkage', text }]);
  }
  return finished.div(new Decimal(1).minus(shrinkage));
};
