/**
 * The mean, corrected once for the rounding of its own sum.
 *
 * @param values at least one number
 * @returns the mean; NaN for none
 * @see NIST Statistical Reference Datasets, univariate; test/reference/estimating/nist.test.ts
 */
export const mean = (values: readonly number[]): number => {
  let sum = 0;
  for (const value of values) sum += value;
  const first = sum / values.length;
  let rest = 0;
  for (const value of values) rest += value - first;
  return first + rest / values.length;
};

/**
 * The sum of squared distances from a centre (two passes, corrected).
 *
 * @param values any numbers
 * @param centre from where to measure; the mean if left out
 * @returns the sum, from 0 up
 */
export const squaresAbout = (values: readonly number[], centre = mean(values)): number => {
  let sum = 0;
  for (const value of values) sum += (value - centre) ** 2;
  return sum;
};

/**
 * The sample standard deviation, with n - 1 below.
 *
 * @param values at least two numbers
 * @returns the deviation, from 0 up
 * @see NIST Statistical Reference Datasets, univariate; test/reference/estimating/nist.test.ts
 */
export const deviation = (values: readonly number[]): number =>
  Math.sqrt(squaresAbout(values) / (values.length - 1));
