import { Decimal } from '../../kernel/decimal.js';
import { Invalid } from '../../kernel/errors.js';

/** ratio = base + S (w·W + t·T), by stitch type of ISO 4915. */
const GAUGES: Readonly<Record<string, readonly [base: number, w: number, t: number]>> = {
  '101': [3, 0, 2],
  '301': [2, 0, 2],
  '401': [4, 0, 2],
  '406': [7, 2, 2],
  '504': [5, 4, 4],
  '514': [5, 4, 6],
  '516': [9, 4, 6],
  '602': [8, 5, 4],
  '605': [10, 4, 6],
  '607': [12, 4, 8],
};

/** Stitch types whose ratio can be worked out from thickness, width and density. */
export const GAUGED_STITCHES = Object.keys(GAUGES);

/**
 * Thread for one length of a machine seam, worked out from how thick the seam is, how wide the stitch, and how close:
 * base + S (w·W + t·T), with the constants of the Union Special chart.
 *
 * @param stitch stitch type of ISO 4915, one of `GAUGED_STITCHES`
 * @param thickness T of the seam in inches, not negative
 * @param width W of the stitch in inches, not negative; nought where a type has none
 * @param perInch S, stitches an inch, above 0
 * @returns lengths of thread for one length of seam, unrounded
 * @throws Invalid naming what cannot be meant
 * @see Union Special chart, A&E archive; textiletechinsight.com, thread consumption; test/reference/stock/thread.test.ts TH-03, TH-04
 */
export const ratioByGauge = (
  stitch: string,
  thickness: Decimal,
  width: Decimal,
  perInch: Decimal,
): Decimal => {
  const gauge = Object.hasOwn(GAUGES, stitch) ? GAUGES[stitch] : undefined;
  if (!gauge) throw Invalid.field('stitch', `Give one of the stitch types ${GAUGED_STITCHES.join(', ')}.`);
  if (thickness.lt(0)) throw Invalid.field('thickness', 'A seam is not thinner than nothing.');
  if (width.lt(0)) throw Invalid.field('width', 'A stitch is not narrower than nothing.');
  if (perInch.lte(0)) throw Invalid.field('perInch', 'There is at least some stitch in an inch.');
  const [base, w, t] = gauge;
  return perInch.times(width.times(w).plus(thickness.times(t))).plus(new Decimal(base));
};
