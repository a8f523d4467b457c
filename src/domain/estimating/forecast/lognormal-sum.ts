import type { Flat } from '../algebra/cholesky.js';

/** A sum of related lognormal quantities, taken as one lognormal quantity. */
export interface LognormalSum {
  readonly mean: number;
  readonly variance: number;
  /** Mean and spread of the logarithm of the sum. */
  readonly mu: number;
  readonly s: number;
}

/**
 * The sum of related lognormal quantities e exp(m + N(0, S)) as one lognormal with the same mean and variance:
 * E_i = e_i exp(m_i + S_ii / 2), M = sum E, Var = sum sum E_i E_j (exp S_ij - 1), s² = ln(1 + Var / M²),
 * mu = ln M - s² / 2.
 *
 * @param e planned minutes of each, above 0
 * @param m mean of the logarithm of each one's ratio
 * @param S covariances, flat n x n
 * @returns mean, variance, mu and s
 * @see Fenton, "The Sum of Log-Normal Probability Distributions in Scatter Transmission Systems", IRE Transactions
 *   on Communications Systems 8 (1960); test/reference/estimating/totals.test.ts
 */
export const lognormalSum = (
  e: readonly number[],
  m: readonly number[],
  S: Flat | readonly number[],
): LognormalSum => {
  const n = e.length;
  const expected = e.map((minutes, i) => minutes * Math.exp(m[i]! + S[i * n + i]! / 2));
  const mean = expected.reduce((a, b) => a + b, 0);
  let variance = 0;
  for (let i = 0; i < n; i += 1) {
    variance += expected[i]! ** 2 * Math.expm1(S[i * n + i]!);
    for (let j = 0; j < i; j += 1) variance += 2 * expected[i]! * expected[j]! * Math.expm1(S[i * n + j]!);
  }
  const square = Math.log1p(Math.max(0, variance) / (mean * mean));
  return { mean, variance, mu: Math.log(mean) - square / 2, s: Math.sqrt(square) };
};
