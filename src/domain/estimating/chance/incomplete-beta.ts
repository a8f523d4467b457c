import { logGamma } from './log-gamma.js';

const TINY = 1e-300;

/** Lentz's way through the continued fraction of the incomplete beta function (DLMF 8.17.22). */
const fraction = (x: number, a: number, b: number): number => {
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < TINY ? TINY : d);
  let value = d;
  for (let m = 1; m < 20_000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 + even * d;
    c = 1 + even / c;
    d = 1 / (Math.abs(d) < TINY ? TINY : d);
    c = Math.abs(c) < TINY ? TINY : c;
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 + odd * d;
    c = 1 + odd / c;
    d = 1 / (Math.abs(d) < TINY ? TINY : d);
    c = Math.abs(c) < TINY ? TINY : c;
    const step = d * c;
    value *= step;
    if (Math.abs(step - 1) < 3e-16) break;
  }
  return value;
};

/** ln B(a, b). */
export const logBeta = (a: number, b: number): number => logGamma(a) + logGamma(b) - logGamma(a + b);

/**
 * The regularised incomplete beta function: the chance that a beta quantity stays below x.
 *
 * @param x 0 to 1
 * @param a above 0
 * @param b above 0
 * @param rest 1 - x, where the caller knows it better than a subtraction would
 * @param lnB ln B(a, b), where the caller has it already
 * @returns a chance, 0 to 1
 * @see NIST Digital Library of Mathematical Functions, 8.17.22; test/reference/estimating/quantiles.test.ts
 */
export const incompleteBeta = (
  x: number,
  a: number,
  b: number,
  rest = 1 - x,
  lnB = logBeta(a, b),
): number => {
  if (x <= 0) return 0;
  if (rest <= 0) return 1;
  const front = Math.exp(a * Math.log(x) + b * Math.log(rest) - lnB);
  if (x * (a + b + 2) < a + 1) return (front * fraction(x, a, b)) / a;
  return 1 - (front * fraction(rest, b, a)) / b;
};

/**
 * The value that a beta quantity stays below with chance p: Newton on its log odds, kept inside a shrinking bracket.
 *
 * @param p a chance, 0 to 1
 * @param a above 0
 * @param b above 0
 * @returns the quantile, 0 to 1
 * @see test/reference/estimating/quantiles.test.ts
 */
export const betaQuantile = (p: number, a: number, b: number): number => {
  if (p <= 0) return 0;
  if (p >= 1) return 1;
  const lnB = logBeta(a, b);
  let low = -750;
  let high = 750;
  let odds = Math.log(a / b);
  for (let turn = 0; turn < 200; turn += 1) {
    const x = odds > 0 ? 1 / (1 + Math.exp(-odds)) : Math.exp(odds) / (1 + Math.exp(odds));
    const rest = odds > 0 ? Math.exp(-odds) / (1 + Math.exp(-odds)) : 1 / (1 + Math.exp(odds));
    const upper = p > 0.5;
    const miss = upper ? 1 - p - incompleteBeta(rest, b, a, x, lnB) : incompleteBeta(x, a, b, rest, lnB) - p;
    if (miss > 0) high = odds;
    else low = odds;
    const slope = Math.exp(a * Math.log(x) + b * Math.log(rest) - lnB);
    const chance = upper ? 1 - p : p;
    const here = upper ? chance - miss : chance + miss;
    const step = ((upper ? -1 : 1) * Math.log(here / chance) * here) / slope;
    let next = odds - step;
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next - odds) < 1e-15 * Math.max(1, Math.abs(odds))) return x;
    odds = next;
  }
  return odds > 0 ? 1 / (1 + Math.exp(-odds)) : Math.exp(odds) / (1 + Math.exp(odds));
};
