import { addProduct, transposed } from '../algebra/cholesky.js';
import type { Arranged } from './arrange.js';
import { rowOf, type Solution, sumsOf, type TypeSolution } from './solve.js';
import type { Belief } from './starting-values.js';
import type { Variances } from './variances.js';

/** What a sweep found, beside the new variances. */
export interface Swept {
  /** Effect of each garment, in the order of `arranged.types` and their garments. */
  readonly gammas: number[];
  /** Sum of rho: how many garments the lesson rests on, old ones fading. */
  readonly weight: number;
  /** Weighted rows and squares of each kind; the last place is for the pooled rare kinds. */
  readonly rowsOf: Float64Array;
  readonly squaresOf: Float64Array;
}

/** Covariances of one type's own coefficients with the shared ones and among themselves. */
const spreadOf = (solution: Solution, type: TypeSolution, g: number) => {
  const { size: m, carry, inverse } = type;
  const withShared = new Float64Array(m * g);
  addProduct(withShared, carry, solution.covariance, [m, g, g], -1);
  const own = Float64Array.from(inverse);
  addProduct(own, withShared, transposed(carry, m, g), [m, g, m], -1, true);
  for (let i = 0; i < m; i += 1) for (let j = 0; j < i; j += 1) own[j * m + i] = own[i * m + j]!;
  return { withShared, own };
};

/**
 * Steps 3 to 6: effects of the garments, residuals with their doubt, new variances, new weights of the rows.
 *
 * gamma = (q - h'b) / D;  V = rho/D + h'C h / D²;  e = y - x'b - gamma;  v = x'C x - 2 x'C h / D + V;
 * The doubt V of an old garment is its own, rho/D and not 1/D: a garment that counts little adds little to the sums
 * below, where 1/D would let many old garments swell the variances without limit.
 *
 * Each variance = (its prior's worth + sum of squares and doubts) / (worth + count);  u = 9 / (8 + (e² + v) / sigma²).
 *
 * @param arranged the rows
 * @param belief the starting values
 * @param solution coefficients at the present variances
 * @param variances the present variances; overwritten by the next ones
 * @returns effects of the garments and the sums per kind
 * @see Dempster, Laird and Rubin, "Maximum Likelihood from Incomplete Data via the EM Algorithm", JRSS B 39 (1977);
 *   Lange, Little and Taylor, "Robust Statistical Modeling Using the t Distribution", JASA 84 (1989)
 */
export const sweep = (
  arranged: Arranged,
  belief: Belief,
  solution: Solution,
  variances: Variances,
): Swept => {
  const g = arranged.globals;
  const slots = arranged.kinds.length + 1;
  const squaresOf = new Float64Array(slots);
  const rowsOf = new Float64Array(slots);
  const miss = new Float64Array(arranged.rows);
  const gammas: number[] = [];
  let [weight, garmentSquares, typeSquares, pairSquares, pairs] = [0, 0, 0, 0, 0];
  const places = new Int32Array(7);
  const values = new Float64Array(7);
  arranged.types.forEach((type, t) => {
    const own = solution.types[t]!;
    const m = own.size;
    const spread = spreadOf(solution, own, g);
    typeSquares += own.effects[0]! ** 2 + spread.own[0]!;
    for (let k = 1; k < m; k += 1) pairSquares += own.effects[k]! ** 2 + spread.own[k * m + k]!;
    pairs += m - 1;
    for (const garment of type.garments) {
      const { h, D, q } = sumsOf(arranged, garment, variances);
      const { support, rho } = garment;
      const p = support.length;
      const C = new Float64Array(p * p);
      const b = new Float64Array(p);
      for (let a = 0; a < p; a += 1) {
        const ia = support[a]!;
        b[a] = ia < g ? solution.effects[ia]! : own.effects[ia - g]!;
        for (let c = 0; c <= a; c += 1) {
          const ic = support[c]!;
          let value: number;
          if (ia < g)
            value = ic < g ? solution.covariance[ia * g + ic]! : spread.withShared[(ic - g) * g + ia]!;
          else value = ic < g ? spread.withShared[(ia - g) * g + ic]! : spread.own[(ia - g) * m + ic - g]!;
          C[a * p + c] = value;
          C[c * p + a] = value;
        }
      }
      const Ch = new Float64Array(p);
      let [hb, hCh] = [0, 0];
      for (let a = 0; a < p; a += 1) {
        let sum = 0;
        for (let c = 0; c < p; c += 1) sum += C[a * p + c]! * h[c]!;
        Ch[a] = sum;
        hb += h[a]! * b[a]!;
        hCh += sum * h[a]!;
      }
      const gamma = (q - hb) / D;
      const V = rho / D + hCh / (D * D);
      gammas.push(gamma);
      weight += rho;
      garmentSquares += rho * (gamma * gamma + V);
      for (let i = garment.from; i < garment.to; i += 1) {
        const count = rowOf(arranged, garment, i, places, values);
        let [mean, xCx, xCh] = [gamma, 0, 0];
        for (let a = 0; a < count; a += 1) {
          const x = values[a]!;
          if (x === 0) continue;
          const at = places[a]!;
          mean += x * b[at]!;
          xCh += x * Ch[at]!;
          for (let c = 0; c < count; c += 1) xCx += x * values[c]! * C[at * p + places[c]!]!;
        }
        const off = (arranged.y[i]! - mean) ** 2 + Math.max(0, xCx - (2 * xCh) / D + V);
        miss[i] = off;
        squaresOf[arranged.kind[i]!]! += rho * variances.u[i]! * off;
        rowsOf[arranged.kind[i]!]! += rho;
      }
    }
  });
  let kindSquares = 0;
  const kinds = arranged.kinds.length;
  for (let k = 1; k <= kinds; k += 1)
    kindSquares += solution.effects[k]! ** 2 + solution.covariance[k * g + k]!;
  const next = (spread: number, squares: number, count: number) =>
    Math.max(1e-12, (belief.nu0 * spread ** 2 + squares) / Math.max(1e-12, belief.nu0 + count));
  variances.type = next(belief.type, typeSquares, arranged.types.length);
  variances.kind = next(belief.kind, kindSquares, kinds);
  variances.pair = next(belief.pair, pairSquares, pairs);
  variances.garment = next(belief.garment, garmentSquares, weight);
  variances.noise = next(
    belief.noise,
    squaresOf.reduce((a, b) => a + b, 0),
    rowsOf.reduce((a, b) => a + b, 0),
  );
  for (let k = 0; k < slots; k += 1) {
    const worth = belief.nuS + rowsOf[k]!;
    variances.noiseOf[k] =
      worth > 0 ? (belief.nuS * variances.noise + squaresOf[k]!) / worth : variances.noise;
  }
  if (Number.isFinite(belief.noiseDegrees))
    for (let i = 0; i < arranged.rows; i += 1)
      variances.u[i] =
        (belief.noiseDegrees + 1) / (belief.noiseDegrees + miss[i]! / variances.noiseOf[arranged.kind[i]!]!);
  return { gammas, weight, rowsOf, squaresOf };
};
