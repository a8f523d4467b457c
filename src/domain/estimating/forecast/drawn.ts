import { order, strataOf } from '../chance/draws.js';
import { quickStudentQuantile, studentChance } from '../chance/student.js';
import { type Joint, ownSpread } from './joint.js';
import { tabled } from './tabled.js';

/** How many draws stand for a total. */
export const DRAWS = 4096;

/**
 * Standard values of a quantity that is known to lie above c, one per draw, each from its own stratum. Chances and values
 * are read from tables of some hundred points, good to about four digits.
 */
const cutOff = (c: (draw: number) => number, degrees: number, draws: number, seed: number): Float64Array => {
  const place = order(draws, seed);
  const edges = new Float64Array(draws);
  for (let d = 0; d < draws; d += 1) edges[d] = c(d);
  const lnAbove = tabled(edges, (edge) => Math.log(Math.max(1e-290, studentChance(-edge, degrees))));
  // By the log odds a quantile is close to a straight line at both ends.
  const odds = new Float64Array(draws);
  for (let d = 0; d < draws; d += 1) {
    const ln = Math.min(-1e-16, lnAbove(edges[d]!) + Math.log(1 - (place[d]! + 0.5) / draws));
    odds[d] = ln - Math.log(-Math.expm1(ln));
  }
  const value = tabled(odds, (at) => -quickStudentQuantile(1 / (1 + Math.exp(-at)), degrees));
  for (let d = 0; d < draws; d += 1) odds[d] = Math.max(edges[d]!, value(odds[d]!));
  return odds;
};

/**
 * Sums of operations by stratified draws: every shared factor and every operation's own noise is cut into as many
 * equally likely strata as there are draws, and shuffled by a fixed seed. Factors lie along the sums that are wanted. Operations under way come first, cut off
 * below at what they have taken, and the rest follow from them.
 *
 * @param joint the forecast of the operations that are not finished
 * @param soFar minutes so far of each; 0 where not begun
 * @param groups for each sum wanted, the share of each operation in it
 * @param sharedDegrees degrees of freedom of what is shared
 * @param draws how many, up to 65,536
 * @returns for each group its sums, rising
 * @see McKay, Beckman and Conover, "A Comparison of Three Methods for Selecting Values of Input Variables",
 *   Technometrics 21 (1979); test/reference/estimating/totals.test.ts
 */
export const drawSums = (
  joint: Joint,
  soFar: readonly number[],
  groups: readonly (readonly number[])[],
  sharedDegrees: number,
  draws = DRAWS,
): Float64Array[] => {
  const n = joint.size;
  const Q = new Float64Array(joint.shared);
  const noise = [...joint.noise];
  const factors: { column: Float64Array; z: Float64Array }[] = [];
  const takeOut = (column: Float64Array) => {
    for (let i = 0; i < n; i += 1) for (let j = 0; j < n; j += 1) Q[i * n + j]! -= column[i]! * column[j]!;
  };
  const silence = (at: number) => {
    for (let i = 0; i < n; i += 1) {
      Q[i * n + at] = 0;
      Q[at * n + i] = 0;
    }
  };
  soFar.forEach((minutes, i) => {
    if (minutes <= 0) return;
    const spread = Math.sqrt(Math.max(1e-12, Q[i * n + i]! + noise[i]!));
    const column = Float64Array.from({ length: n }, (_, j) => Q[j * n + i]! / spread);
    const before = [...factors];
    const edge = Math.log(minutes / joint.planned[i]!) - joint.means[i]!;
    const c = (d: number) => {
      let left = edge;
      for (const { column: earlier, z } of before) left -= earlier[i]! * z[d]!;
      return left / spread;
    };
    const z = cutOff(c, ownSpread(joint, i).degrees, draws, 500 + i);
    takeOut(column);
    silence(i);
    column[i] = spread;
    noise[i] = 0;
    factors.push({ column, z });
  });
  // What no other operation shares goes to the operation itself; the rest is taken out along the sums that are wanted,
  // so that each of them is stratified along its own direction.
  for (let i = 0; i < n; i += 1) {
    let most = 0;
    for (let j = 0; j < n; j += 1) if (j !== i) most = Math.max(most, Q[i * n + j]!);
    const own = Math.max(0, Q[i * n + i]! - most);
    if (noise[i]! > 0) noise[i]! += own;
    Q[i * n + i]! -= own;
  }
  const table = strataOf(draws, sharedDegrees);
  groups.forEach((shares, f) => {
    const toward = shares.map((share, i) => share * joint.planned[i]! * Math.exp(joint.means[i]!));
    const column = new Float64Array(n);
    let whole = 0;
    for (let i = 0; i < n; i += 1) {
      for (let j = 0; j < n; j += 1) column[i]! += Q[i * n + j]! * toward[j]!;
      whole += column[i]! * toward[i]!;
    }
    const size = toward.reduce((sum, weight) => sum + weight * weight, 0);
    if (!(whole > 1e-6 * size)) return;
    for (let i = 0; i < n; i += 1) column[i]! /= Math.sqrt(whole);
    takeOut(column);
    const place = order(draws, f);
    const z = new Float64Array(draws);
    for (let d = 0; d < draws; d += 1) z[d] = table[place[d]!]!;
    factors.push({ column, z });
  });
  const own = joint.planned.map((planned, j) => {
    const spread = Math.sqrt(noise[j]! > 0 ? noise[j]! + Math.max(0, Q[j * n + j]!) : 0);
    return {
      mean: joint.means[j]!,
      planned,
      least: soFar[j]!,
      spread,
      values: spread > 0 ? strataOf(draws, joint.noiseDegrees[j]!) : table,
      place: order(draws, 1000 + j),
      pulls: factors.flatMap(({ column, z }) =>
        Math.abs(column[j]!) > 1e-4 ? [{ weight: column[j]!, z }] : [],
      ),
      shares: groups.map((shares) => shares[j]!),
    };
  });
  const sums = groups.map(() => new Float64Array(draws));
  for (let from = 0; from < draws; from += STRETCH)
    addStretch(own, sums, from, Math.min(draws, from + STRETCH));
  return sums.map((sum) => sum.sort());
};

/** So many draws at a time stay in the nearest memory of the processor. */
const STRETCH = 512;

/** One operation as it is drawn. */
type Drawing = {
  readonly mean: number;
  readonly planned: number;
  readonly least: number;
  readonly spread: number;
  readonly values: Float64Array;
  readonly place: Uint16Array;
  readonly pulls: readonly { readonly weight: number; readonly z: Float64Array }[];
  readonly shares: readonly number[];
};

/** Draws every operation from one draw up to another and adds it to the sums it belongs to. */
const addStretch = (
  operations: readonly Drawing[],
  sums: readonly Float64Array[],
  from: number,
  to: number,
): void => {
  const y = new Float64Array(to - from);
  for (const { mean, planned, least, spread, values, place, pulls, shares } of operations) {
    y.fill(mean);
    for (const { weight, z } of pulls) for (let d = from; d < to; d += 1) y[d - from]! += weight * z[d]!;
    if (spread > 0) for (let d = from; d < to; d += 1) y[d - from]! += spread * values[place[d]!]!;
    for (let d = 0; d < y.length; d += 1) y[d] = Math.max(least, planned * Math.exp(Math.min(600, y[d]!)));
    for (let g = 0; g < shares.length; g += 1) {
      const share = shares[g]!;
      const sum = sums[g]!;
      if (share > 0) for (let d = from; d < to; d += 1) sum[d]! += share * y[d - from]!;
    }
  }
};
