import { incompleteBeta, logBeta } from './incomplete-beta.js';
import { normalChance, normalQuantile } from './normal.js';

/** Above this many degrees of freedom the normal with a Cornish-Fisher term is exact enough and much faster. */
const LARGE = 1e5;

/** Normal to t (z to t), by the Cornish-Fisher expansion of Fisher and Cornish (1960) in 1 / nu. */
const expanded = (z: number, nu: number): number => {
  const z2 = z * z;
  const g1 = (z * (z2 + 1)) / 4;
  const g2 = (z * (5 * z2 * z2 + 16 * z2 + 3)) / 96;
  const g3 = (z * (3 * z2 * z2 * z2 + 19 * z2 * z2 + 17 * z2 - 15)) / 384;
  return z + (g1 + (g2 + g3 / nu) / nu) / nu;
};

/** The chance of going above t > 0. */
const tailAbove = (t: number, nu: number, lnB: number): number => {
  const t2 = t * t;
  return 0.5 * incompleteBeta(nu / (nu + t2), nu / 2, 0.5, t2 / (nu + t2), lnB);
};

/**
 * The chance that a Student t quantity stays below t.
 *
 * @param t any number
 * @param nu degrees of freedom, above 0, not necessarily whole
 * @returns a chance, 0 to 1
 * @see NIST Digital Library of Mathematical Functions, 8.17; test/reference/estimating/quantiles.test.ts
 */
export const studentChance = (t: number, nu: number): number => {
  if (nu > LARGE) return normalChance(t * (1 - 1 / (4 * nu)) * (1 / Math.sqrt(1 + (t * t) / (2 * nu))));
  const tail = t === 0 ? 0.5 : tailAbove(Math.abs(t), nu, logBeta(nu / 2, 0.5));
  return t > 0 ? 1 - tail : tail;
};

/**
 * The density of a Student t quantity at t.
 *
 * @param t any number
 * @param nu degrees of freedom, above 0
 * @returns the density, above 0
 */
export const studentDensity = (t: number, nu: number): number =>
  Math.exp(-((nu + 1) / 2) * Math.log1p((t * t) / nu) - 0.5 * Math.log(nu) - logBeta(nu / 2, 0.5));

/**
 * A quick quantile of Student's t, good to about five digits from nu = 3 up; for draws and first guesses.
 *
 * @param p a chance, above 0 and below 1
 * @param nu degrees of freedom, above 2
 * @returns the quantile, approximately
 * @see Hill, "Algorithm 396: Student's t-quantiles", Communications of the ACM 13 (1970)
 */
export const quickStudentQuantile = (p: number, nu: number): number => {
  if (nu > 1000) return expanded(normalQuantile(p), nu);
  const both = 2 * Math.min(p, 1 - p);
  if (both <= 0) return p < 0.5 ? -Infinity : Infinity;
  const a = 1 / (nu - 0.5);
  const b = (48 / a) * (1 / a);
  let c = ((20700 * a) / b - 98) * a - 16;
  c = c * a + 96.36;
  const d = ((94.5 / (b + c) - 3) / b + 1) * Math.sqrt((a * Math.PI) / 2) * nu;
  let y = (d * both) ** (2 / nu);
  if (y > 0.05 + a) {
    const x = normalQuantile(both / 2);
    y = x * x;
    if (nu < 5) c += 0.3 * (nu - 4.5) * (x + 0.6);
    c = (((0.05 * d * x - 5) * x - 7) * x - 2) * x + b + c;
    y = (((((0.4 * y + 6.3) * y + 36) * y + 94.5) / c - y - 3) / b + 1) * x;
    y = a * y * y;
    y = Math.expm1(y);
  } else {
    const inner = ((nu + 6) / (nu * y) - 0.089 * d - 0.822) * (nu + 2) * 3;
    y = ((1 / inner + 0.5 / (nu + 4)) * y - 1) * ((nu + 1) / (nu + 2)) + 1 / y;
  }
  const size = Math.sqrt(nu * y);
  return p < 0.5 ? -size : size;
};

/**
 * The value that a Student t quantity stays below with chance p: Newton on ln t, kept inside a bracket.
 *
 * @param p a chance, 0 to 1
 * @param nu degrees of freedom, above 0, not necessarily whole
 * @returns the quantile; minus or plus infinity at 0 and 1; relative error below 1e-11
 * @see test/reference/estimating/quantiles.test.ts
 */
export const studentQuantile = (p: number, nu: number): number => {
  if (p === 0.5) return 0;
  if (nu > LARGE) return expanded(normalQuantile(p), nu);
  const tail = Math.min(p, 1 - p);
  if (tail <= 0) return p < 0.5 ? -Infinity : Infinity;
  const lnB = logBeta(nu / 2, 0.5);
  let low = -50;
  let high = Math.log(1e3) - (Math.log(tail) - 10) / nu + 10;
  const guess = nu > 2 ? Math.abs(quickStudentQuantile(p, nu)) : 1 / tail;
  let at = Math.log(guess > 0 && guess < 1e300 ? guess : 1);
  for (let turn = 0; turn < 100; turn += 1) {
    const t = Math.exp(at);
    const here = tailAbove(t, nu, lnB);
    if (here > tail) low = at;
    else high = at;
    const slope = studentDensity(t, nu) * t;
    let next = at + (Math.log(here / tail) * here) / slope;
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next - at) < 1e-14 * Math.max(1, Math.abs(at))) {
      at = next;
      break;
    }
    at = next;
  }
  return p < 0.5 ? -Math.exp(at) : Math.exp(at);
};
