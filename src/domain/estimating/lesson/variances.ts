import type { Arranged } from './arrange.js';
import type { Belief } from './starting-values.js';

/** The variances of the model between two sweeps, and the weight of each row. */
export interface Variances {
  garment: number;
  type: number;
  kind: number;
  pair: number;
  /** Pooled noise. */
  noise: number;
  /** Noise of each kind; the last place is for the pooled rare kinds. */
  readonly noiseOf: Float64Array;
  /** Latent weight of each row: low where it lies far out. */
  readonly u: Float64Array;
}

const OFF = 1e-12;

/**
 * Where the sweeps begin: at the starting values, or at those of an earlier lesson.
 *
 * @param arranged the rows
 * @param belief the starting values; a spread of 0 switches that part of the model off
 * @param from variances to begin at, and the noise by kind
 * @returns fresh variances with every row at weight 1
 */
export const startingVariances = (
  arranged: Arranged,
  belief: Belief,
  from?: { garment: number; type: number; kind: number; pair: number; noise: number },
  noiseOf?: ReadonlyMap<string, number>,
): Variances => {
  const own = (spread: number, begun?: number) => (spread === 0 ? OFF : (begun ?? spread ** 2));
  const noise = from?.noise ?? belief.noise ** 2;
  const values = new Float64Array(arranged.kinds.length + 1).fill(noise);
  arranged.kinds.forEach(({ kind }, index) => {
    values[index] = noiseOf?.get(kind) ?? noise;
  });
  return {
    garment: own(belief.garment, from?.garment),
    type: own(belief.type, from?.type),
    kind: own(belief.kind, from?.kind),
    pair: own(belief.pair, from?.pair),
    noise,
    noiseOf: values,
    u: new Float64Array(arranged.rows).fill(1),
  };
};
