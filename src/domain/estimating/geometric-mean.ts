/**
 * The geometric mean, exp(mean of ln): what ratios come to on the whole, of which twice as much and half as much set each
 * other off.
 *
 * @param ratios each above 0; at least one
 * @see test/domain/lessons/type-lesson.test.ts WS-19
 */
export const geometricMean = (ratios: readonly number[]): number =>
  Math.exp(ratios.reduce((sum, ratio) => sum + Math.log(ratio), 0) / ratios.length);
