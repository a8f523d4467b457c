/** So many times the middle of the others, or so small a part of it, is no garment of its kind but a slip or an exception. */
const TIMES = 4;
/** Among fewer nobody can say which one is the odd one out. */
const FEWEST = 5;

/**
 * Which of several times lie so far from the others that the others should not follow them: a total typed ten-fold, or the one
 * gown that took the winter. A time is far off at over 4 times the median of them all, or under a quarter of it; among fewer than 5
 * none is. Ours; judgement, not measurement. Nothing is thrown away: pages show it, and say that it is left out of the middle.
 *
 * @param times any number of times above 0, in one unit
 * @returns for each of them whether it is far off; never all of them
 * @see test/domain/estimating/far-off.test.ts
 */
export const farOff = (times: readonly number[]): boolean[] => {
  if (times.length < FEWEST) return times.map(() => false);
  const middle = medianOf(times);
  return times.map((time) => time > TIMES * middle || time * TIMES < middle);
};

/** Where few of a kind can be asked, the many of other kinds are, whose middle may rightly be another: farther is allowed. */
const TIMES_AMONG_OTHERS = 5;

/**
 * Is one of few of its kind far off from many that are like it in all but their kind?
 *
 * @param ratio time ÷ planned time of the one
 * @param others the same of the many, itself among them; fewer than 5 can say nothing
 * @returns true at over 5 times their median, or under a fifth of it. Ours; judgement, not measurement.
 * @see test/domain/estimating/far-off.test.ts
 */
export const farOffAmongOthers = (ratio: number, others: readonly number[]): boolean => {
  if (others.length < FEWEST) return false;
  const middle = medianOf(others);
  return ratio > TIMES_AMONG_OTHERS * middle || ratio * TIMES_AMONG_OTHERS < middle;
};

/** Can these many say which of them is the odd one out? */
export const mayJudge = (count: number): boolean => count >= FEWEST;

/** The times that are not far off. @see farOff */
export const near = (times: readonly number[]): number[] => {
  const away = farOff(times);
  return times.filter((_, place) => !away[place]);
};

const medianOf = (times: readonly number[]): number => {
  const sorted = Float64Array.from(times).sort();
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : Math.sqrt(sorted[half - 1]! * sorted[half]!);
};
