import { Decimal } from '../../kernel/decimal.js';
import { Invalid } from '../../kernel/errors.js';

/** One seam: its length, how often it is sewn, and the thread it takes for each length of seam. */
export type Seam = { readonly length: Decimal; readonly times: Decimal; readonly ratio: Decimal };

/**
 * Thread for seams: Σ length × times × ratio, and the same with waste.
 *
 * @param seams lengths in one unit, not negative; ratios above 0
 * @param waste share of one, not negative
 * @returns lengths of thread in the unit of the seams, unrounded
 * @throws Invalid naming the seam that cannot be meant
 * @see test/reference/stock/thread.test.ts TH-01, TH-06
 */
export const threadNeed = (
  seams: readonly Seam[],
  waste: Decimal,
): { readonly thread: Decimal; readonly withWaste: Decimal } => {
  seams.forEach(({ length, times, ratio }, index) => {
    if (length.lt(0) || times.lt(0) || ratio.lte(0))
      throw Invalid.field(`seams.${index}.length`, 'A seam has a length of 0 or more and a ratio above 0.');
  });
  if (waste.lt(0)) throw Invalid.field('waste', 'Waste is not below 0.');
  const thread = seams.reduce(
    (sum, { length, times, ratio }) => sum.plus(length.times(times).times(ratio)),
    new Decimal(0),
  );
  return { thread, withWaste: thread.times(waste.plus(1)) };
};

/**
 * A ratio measured on one's own seam: unpick it and lay the thread along the rule.
 *
 * @param thread unpicked length, not negative
 * @param seam length it was sewn over, above 0, in the same unit
 * @returns thread for one length of seam, unrounded
 * @see Coats' method as told by apparelscience.com; test/reference/stock/thread.test.ts TH-01
 */
export const measuredRatio = (thread: Decimal, seam: Decimal): Decimal => {
  if (seam.lte(0) || thread.lt(0)) throw Invalid.field('seam', 'A seam is longer than nothing.');
  return thread.div(seam);
};

/** How many reels of a length are to be bought: whole ones. @see test/reference/stock/thread.test.ts TH-06 */
export const reelsFor = (thread: Decimal, reel: Decimal): number => {
  if (reel.lte(0)) throw Invalid.field('reel', 'A reel holds more than nothing.');
  return thread.div(reel).ceil().toNumber();
};
