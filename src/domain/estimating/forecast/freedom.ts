/**
 * Degrees of freedom of a sum of variances that are each known only so well (Welch and Satterthwaite):
 * V² / sum of (part² / its degrees), with V the sum of the parts.
 *
 * @param parts pairs of variance and degrees of freedom
 * @returns degrees of freedom, between the smallest and the sum of those given; Infinity for no variance at all
 * @see Satterthwaite, "An Approximate Distribution of Estimates of Variance Components", Biometrics Bulletin 2
 *   (1946); test/reference/estimating/totals.test.ts
 */
export const freedomOf = (parts: readonly (readonly [variance: number, degrees: number])[]): number => {
  let sum = 0;
  let below = 0;
  for (const [variance, degrees] of parts) {
    sum += variance;
    below += (variance * variance) / degrees;
  }
  return below > 0 ? (sum * sum) / below : Number.POSITIVE_INFINITY;
};
