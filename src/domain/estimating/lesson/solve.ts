import { addProduct, type Flat, factorise, inverseFrom, transposed } from '../algebra/cholesky.js';
import { AGAIN, type Arranged, type ArrangedGarment, CHANGE, MEAN, SIZE, TYPE } from './arrange.js';
import type { Belief } from './starting-values.js';
import type { Variances } from './variances.js';

/** The part of the solution that belongs to one type: with c = shared coefficients, own = inverse r - carry c. */
export interface TypeSolution {
  readonly size: number;
  readonly effects: Float64Array;
  readonly inverse: Flat;
  /** size x globals. */
  readonly carry: Float64Array;
}

/** Coefficients and what is needed of their covariance. */
export interface Solution {
  readonly effects: Float64Array;
  readonly covariance: Flat;
  readonly types: readonly TypeSolution[];
}

/** What one garment's rows add up to once its own shared effect has been taken out. */
export interface GarmentSums {
  readonly h: Float64Array;
  D: number;
  q: number;
}

/**
 * h = sum of tau x, D = rho / w² + sum of tau, q = sum of tau y of one garment.
 *
 * @param arranged the rows
 * @param garment which garment
 * @param variances the present variances
 * @returns the three sums, h in the order of the garment's support
 */
export const sumsOf = (arranged: Arranged, garment: ArrangedGarment, variances: Variances): GarmentSums => {
  const h = new Float64Array(garment.support.length);
  let D = garment.rho / variances.garment;
  let q = 0;
  let all = 0;
  for (let i = garment.from; i < garment.to; i += 1) {
    const tau = (garment.rho * variances.u[i]!) / variances.noiseOf[arranged.kind[i]!]!;
    all += tau;
    q += tau * arranged.y[i]!;
    h[SIZE]! += tau * arranged.size[i]!;
    h[CHANGE]! += tau * arranged.change[i]!;
    if (arranged.atKind[i]! >= 0) h[arranged.atKind[i]!]! += tau;
    if (arranged.atPair[i]! >= 0) h[arranged.atPair[i]!]! += tau;
  }
  D += all;
  h[MEAN] = all;
  h[TYPE] = all;
  h[AGAIN] = all * garment.again;
  return { h, D, q };
};

/** The few coefficients that row i touches: their places in the support, and their values. */
export const rowOf = (
  arranged: Arranged,
  garment: ArrangedGarment,
  i: number,
  places: Int32Array,
  values: Float64Array,
): number => {
  places[0] = MEAN;
  places[1] = TYPE;
  places[2] = SIZE;
  places[3] = AGAIN;
  places[4] = CHANGE;
  values[0] = 1;
  values[1] = 1;
  values[2] = arranged.size[i]!;
  values[3] = garment.again;
  values[4] = arranged.change[i]!;
  let count = 5;
  for (const at of [arranged.atKind[i]!, arranged.atPair[i]!]) {
    if (at < 0) continue;
    places[count] = at;
    values[count] = 1;
    count += 1;
  }
  return count;
};

const priorPrecision = (index: number, globals: number, belief: Belief, variances: Variances): number => {
  if (index === 0) return 1 / belief.s0 ** 2;
  if (index < globals - 3) return 1 / variances.kind;
  return 1 / Math.max(belief.slope ** 2, 1e-12);
};

/**
 * Coefficients and covariance at the present variances. The equations have the shape of an arrow: the coefficients of
 * one type meet those of another only through the shared ones, because a garment has one type. So each type is taken
 * out on its own, and only the shared ones are solved together.
 *
 * A = prior + sum tau x x' - sum h h' / D;  r = prior mean + sum tau x y - sum h q / D;  b = A⁻¹ r.
 *
 * @param arranged the rows
 * @param belief the starting values
 * @param variances the present variances
 * @returns the coefficients, the covariance of the shared ones, and per type what carries over
 * @see Henderson, "Best Linear Unbiased Estimation and Prediction under a Selection Model", Biometrics 31 (1975);
 *   test/reference/estimating/reml.test.ts
 */
export const solve = (arranged: Arranged, belief: Belief, variances: Variances): Solution => {
  const g = arranged.globals;
  const shared = new Float64Array(g * g);
  const r = new Float64Array(g);
  for (let i = 0; i < g; i += 1) shared[i * g + i] = priorPrecision(i, g, belief, variances);
  r[0] = Number.isFinite(belief.s0) ? belief.m0 / belief.s0 ** 2 : 0;
  const places = new Int32Array(7);
  const values = new Float64Array(7);
  const parts: { size: number; inverse: Flat; carry: Float64Array; own: Float64Array }[] = [];
  for (const type of arranged.types) {
    const m = type.pairs.length + 1;
    const tt = new Float64Array(m * m);
    const tg = new Float64Array(m * g);
    const own = new Float64Array(m);
    tt[0] = 1 / variances.type;
    for (let i = 1; i < m; i += 1) tt[i * m + i] = 1 / variances.pair;
    for (const garment of type.garments) {
      const { h, D, q } = sumsOf(arranged, garment, variances);
      const { support } = garment;
      const p = support.length;
      const block = new Float64Array(p * p);
      const right = new Float64Array(p);
      for (let a = 0; a < p; a += 1) {
        right[a] = (-h[a]! * q) / D;
        for (let b = 0; b < p; b += 1) block[a * p + b] = (-h[a]! * h[b]!) / D;
      }
      for (let i = garment.from; i < garment.to; i += 1) {
        const tau = (garment.rho * variances.u[i]!) / variances.noiseOf[arranged.kind[i]!]!;
        const count = rowOf(arranged, garment, i, places, values);
        for (let a = 0; a < count; a += 1) {
          const weighted = tau * values[a]!;
          if (weighted === 0) continue;
          right[places[a]!]! += weighted * arranged.y[i]!;
          for (let b = 0; b < count; b += 1) block[places[a]! * p + places[b]!]! += weighted * values[b]!;
        }
      }
      for (let a = 0; a < p; a += 1) {
        const ia = support[a]!;
        if (ia < g) {
          r[ia]! += right[a]!;
          for (let b = 0; b < p; b += 1)
            if (support[b]! < g) shared[ia * g + support[b]!]! += block[a * p + b]!;
        } else {
          own[ia - g]! += right[a]!;
          for (let b = 0; b < p; b += 1) {
            const ib = support[b]!;
            if (ib < g) tg[(ia - g) * g + ib]! += block[a * p + b]!;
            else tt[(ia - g) * m + ib - g]! += block[a * p + b]!;
          }
        }
      }
    }
    const inverse = inverseFrom(factorise(tt, m), m);
    const carry = new Float64Array(m * g);
    addProduct(carry, inverse, tg, [m, m, g], 1);
    addProduct(shared, transposed(tg, m, g), carry, [g, m, g], -1, true);
    for (let k = 0; k < m; k += 1) for (let j = 0; j < g; j += 1) r[j]! -= carry[k * g + j]! * own[k]!;
    parts.push({ size: m, inverse, carry, own });
  }
  const covariance = inverseFrom(factorise(shared, g), g);
  const effects = new Float64Array(g);
  for (let i = 0; i < g; i += 1) for (let j = 0; j < g; j += 1) effects[i]! += covariance[i * g + j]! * r[j]!;
  const types = parts.map(({ size, inverse, carry, own }) => {
    const typeEffects = new Float64Array(size);
    for (let i = 0; i < size; i += 1) {
      for (let k = 0; k < size; k += 1) typeEffects[i]! += inverse[i * size + k]! * own[k]!;
      for (let j = 0; j < g; j += 1) typeEffects[i]! -= carry[i * g + j]! * effects[j]!;
    }
    return { size, effects: typeEffects, inverse, carry };
  });
  return { effects, covariance, types };
};
