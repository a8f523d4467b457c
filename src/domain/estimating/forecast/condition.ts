import { type Flat, factorise, solveInPlace } from '../algebra/cholesky.js';
import { normalChance, normalDensity } from '../chance/normal.js';
import { studentChance, studentQuantile } from '../chance/student.js';
import type { Joint } from './joint.js';

/** Means and covariance of what is left, flat. */
export interface Conditioned {
  readonly means: number[];
  readonly covariance: Flat;
}

/**
 * A joint normal once some of its values are known: m_R + S_RF S_FF⁻¹ (y - m_F) and S_RR - S_RF S_FF⁻¹ S_FR.
 *
 * @param means of all
 * @param rest covariances among all, without any noise that the known ones have of their own; flat
 * @param known indexes of the known ones
 * @param own noise of its own of each known one, in the same order
 * @param y their values
 * @returns means and covariances of all after the news; those of the known ones are of no use
 * @see Anderson, "An Introduction to Multivariate Statistical Analysis", section 2.5;
 *   test/reference/estimating/under-way.test.ts
 */
export const conditionOn = (
  means: readonly number[],
  rest: Flat,
  known: readonly number[],
  own: readonly number[],
  y: readonly number[],
): Conditioned => {
  const n = means.length;
  const f = known.length;
  const covariance = new Float64Array(rest);
  if (f === 0) return { means: [...means], covariance };
  const block = new Float64Array(f * f);
  for (let a = 0; a < f; a += 1)
    for (let b = 0; b < f; b += 1)
      block[a * f + b] = rest[known[a]! * n + known[b]!]! + (a === b ? own[a]! : 0);
  factorise(block, f);
  const miss = solveInPlace(
    block,
    f,
    Float64Array.from(known, (at, a) => y[a]! - means[at]!),
  );
  const moved = means.map((mean, i) =>
    known.reduce((sum, at, a) => sum + rest[i * n + at]! * miss[a]!, mean),
  );
  for (let i = 0; i < n; i += 1) {
    const column = solveInPlace(
      block,
      f,
      Float64Array.from(known, (at) => rest[i * n + at]!),
    );
    for (let j = 0; j <= i; j += 1) {
      let sum = 0;
      for (let a = 0; a < f; a += 1) sum += rest[j * n + known[a]!]! * column[a]!;
      covariance[i * n + j]! -= sum;
      if (i !== j) covariance[j * n + i] = covariance[i * n + j]!;
    }
  }
  return { means: moved, covariance };
};

const picked = (flat: Flat, n: number, keep: readonly number[]): Flat => {
  const out = new Float64Array(keep.length * keep.length);
  keep.forEach((i, a) => {
    keep.forEach((j, b) => {
      out[a * keep.length + b] = flat[i * n + j]!;
    });
  });
  return out;
};

/** The same forecast for some of its lines only. */
export const only = (joint: Joint, keep: readonly number[]): Joint => ({
  ...joint,
  size: keep.length,
  planned: keep.map((i) => joint.planned[i]!),
  means: keep.map((i) => joint.means[i]!),
  shared: picked(joint.shared, joint.size, keep),
  ofGarment: picked(joint.ofGarment, joint.size, keep),
  noise: keep.map((i) => joint.noise[i]!),
  noiseDegrees: keep.map((i) => joint.noiseDegrees[i]!),
});

const withShared = (joint: Joint, news: Conditioned): Joint => {
  const ofGarment = new Float64Array(joint.ofGarment);
  for (let i = 0; i < ofGarment.length; i += 1) {
    const before = joint.shared[i]!;
    if (before !== 0) ofGarment[i]! *= news.covariance[i]! / before;
  }
  return { ...joint, means: news.means, shared: news.covariance, ofGarment };
};

/**
 * The forecast once some operations are finished. One that lies far out (a slip of the pen, a bad day) is believed
 * less, by the same weights as in the fit.
 *
 * @param joint the forecast
 * @param finished indexes and ln(actual / planned) of those that are finished
 * @returns the forecast of all lines after the news
 */
export const afterFinished = (joint: Joint, finished: readonly { at: number; y: number }[]): Joint => {
  if (finished.length === 0) return joint;
  const known = finished.map(({ at }) => at);
  const y = finished.map((one) => one.y);
  let weights = known.map(() => 1);
  let news: Conditioned = { means: [...joint.means], covariance: joint.shared };
  for (let turn = 0; turn < 4; turn += 1) {
    const own = known.map((at, a) => joint.noise[at]! / weights[a]!);
    news = conditionOn(joint.means, joint.shared, known, own, y);
    weights = known.map((at, a) => {
      const off = (y[a]! - news.means[at]!) ** 2 + Math.max(0, news.covariance[at * joint.size + at]!);
      return 9 / (8 + off / joint.noise[at]!);
    });
  }
  return withShared(joint, news);
};

/**
 * The forecast of the others once an operation is known to take longer than it has so far: the normal cut off below
 * is replaced by one with its mean and variance. A slow start moves the rest, by less than itself.
 *
 * @param joint the forecast
 * @param at index of the operation under way
 * @param y ln(minutes so far / planned minutes)
 * @returns the forecast after the news
 * @see Johnson, Kotz and Balakrishnan, "Continuous Univariate Distributions" 1, section 13.10.1
 */
export const afterSoFar = (joint: Joint, at: number, y: number): Joint => {
  const n = joint.size;
  const total = joint.shared[at * n + at]! + joint.noise[at]!;
  const c = Math.min(30, (y - joint.means[at]!) / Math.sqrt(total));
  const beyond = normalChance(-c);
  const hazard = beyond > 1e-200 ? normalDensity(c) / beyond : c + 1 / c;
  const shrink = Math.min(1, Math.max(0, hazard * (hazard - c)));
  const covariance = new Float64Array(joint.shared);
  const means = joint.means.map((mean, i) => mean + (joint.shared[i * n + at]! * hazard) / Math.sqrt(total));
  for (let i = 0; i < n; i += 1)
    for (let j = 0; j < n; j += 1)
      covariance[i * n + j]! -= (shrink * joint.shared[i * n + at]! * joint.shared[j * n + at]!) / total;
  return withShared(joint, { means, covariance });
};

/**
 * For each operation under way, the forecast once all the others under way are known to take longer than they have so far.
 * Each half is looked at in the light of the other half, and so on down, so that n of them take n log n steps.
 *
 * @param joint the forecast
 * @param begun indexes of those under way
 * @param y ln(minutes so far / planned minutes), by index
 * @returns by index, the forecast after the news of the others
 */
export const afterTheOthers = (
  joint: Joint,
  begun: readonly number[],
  y: readonly number[],
): Map<number, Joint> => {
  if (begun.length < 2) return new Map(begun.map((at) => [at, joint]));
  const [one, other] = [begun.slice(0, begun.length >> 1), begun.slice(begun.length >> 1)];
  const after = (some: readonly number[]) => some.reduce((seen, at) => afterSoFar(seen, at, y[at]!), joint);
  return new Map([...afterTheOthers(after(other), one, y), ...afterTheOthers(after(one), other, y)]);
};

/**
 * Minutes at q of an operation that has taken h so far: F⁻¹(F(h) + q (1 - F(h))).
 *
 * @param q a chance, above 0 and below 1
 * @param soFar minutes so far, above 0
 * @param planned planned minutes
 * @param m mean of the logarithm of the ratio
 * @param spread its standard deviation
 * @param degrees of freedom; Infinity for the normal
 * @returns minutes in all, never below those so far
 * @see test/reference/estimating/under-way.test.ts
 */
export const whileUnderWay = (
  q: number,
  soFar: number,
  planned: number,
  m: number,
  spread: number,
  degrees = Number.POSITIVE_INFINITY,
): number => {
  const above = studentChance(-(Math.log(soFar / planned) - m) / spread, degrees);
  if (!(above > 1e-290)) return soFar * (1 + 1e-3 * q);
  const minutes = planned * Math.exp(m - studentQuantile((1 - q) * above, degrees) * spread);
  return Math.max(minutes, soFar * (1 + 1e-9 * q));
};
