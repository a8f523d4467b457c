import { log1pMinus, logGamma, stirlingRest } from './log-gamma.js';
import { normalQuantile } from './normal.js';

/** x^a e^-x / Gamma(a), kept exact for large shapes by taking the deviance apart (Loader 2000). */
const front = (x: number, a: number): number => {
  if (a < 10) return Math.exp(a * Math.log(x) - x - logGamma(a));
  const d = (x - a) / a;
  return Math.sqrt(a / (2 * Math.PI)) * Math.exp(a * log1pMinus(d) - stirlingRest(a));
};

const lower = (x: number, a: number): number => {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < 100_000; n += 1) {
    term *= x / (a + n);
    sum += term;
    if (term < sum * 1e-17) break;
  }
  return sum * front(x, a);
};

const upper = (x: number, a: number): number => {
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let value = d;
  for (let n = 1; n < 100_000; n += 1) {
    const an = -n * (n - a);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    value *= d * c;
    if (Math.abs(d * c - 1) < 3e-16) break;
  }
  return value * front(x, a);
};

/**
 * Both tails of a gamma quantity of scale 1 at x: the chance of staying below and of going above.
 *
 * @param x from 0 up
 * @param a the shape, above 0
 * @returns `[below, above]`, adding to 1; the smaller one keeps its own precision
 * @see NIST Digital Library of Mathematical Functions, 8.11.4 and 8.9.2
 */
export const incompleteGamma = (x: number, a: number): [number, number] => {
  if (x <= 0) return [0, 1];
  if (x < a + 1) {
    const below = lower(x, a);
    return [below, 1 - below];
  }
  const above = upper(x, a);
  return [1 - above, above];
};

/**
 * The value that a gamma quantity of scale 1 stays below with chance p: Newton on ln x, kept inside a bracket.
 * A chi-square of k degrees is twice the gamma of shape k / 2.
 *
 * @param p a chance, 0 to 1
 * @param a the shape, above 0
 * @returns the quantile, from 0 up
 * @see test/reference/estimating/quantiles.test.ts
 */
export const gammaQuantile = (p: number, a: number): number => {
  if (p <= 0) return 0;
  if (p >= 1) return Infinity;
  const z = normalQuantile(p);
  const cube = 1 - 1 / (9 * a) + z / (3 * Math.sqrt(a));
  const small = (Math.log(p) + Math.log(a) + logGamma(a)) / a;
  let at = a > 1 && cube > 0.2 ? Math.log(a) + 3 * Math.log(cube) : Math.min(small, Math.log(a + 50));
  let low = Math.min(small - 1, -800);
  let high = Math.log(a + 60 * Math.sqrt(a) + 100);
  const useUpper = p > 0.5;
  const chance = useUpper ? 1 - p : p;
  for (let turn = 0; turn < 200; turn += 1) {
    const x = Math.exp(at);
    if (x === 0) return 0;
    const [below, above] = incompleteGamma(x, a);
    const here = useUpper ? above : below;
    const tooHigh = useUpper ? here < chance : here > chance;
    if (tooHigh) high = at;
    else low = at;
    const step = ((useUpper ? -1 : 1) * Math.log(here / chance) * here) / front(x, a);
    let next = at - step;
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next - at) < 1e-15 * Math.max(1, Math.abs(at))) return Math.exp(next);
    at = next;
  }
  return Math.exp(at);
};

/**
 * The value that a chi-square quantity stays below with chance p.
 *
 * @param p a chance, 0 to 1
 * @param degrees above 0
 * @returns the quantile, from 0 up
 */
export const chiSquareQuantile = (p: number, degrees: number): number => 2 * gammaQuantile(p, degrees / 2);
