import { type Arranged, arrange } from './arrange.js';
import { type GarmentOfRows, type PastGarment, rowsOf } from './history.js';
import { nearRows } from './near-rows.js';
import { type Solution, solve } from './solve.js';
import { type Belief, type Overruns, STARTING_BELIEF, usualOverrun } from './starting-values.js';
import { type Swept, sweep } from './sweep.js';
import { startingVariances, type Variances } from './variances.js';

/** What past garments say, as plain values that JSON can keep. */
export interface Lesson {
  readonly version: 1;
  readonly belief: Belief;
  /** Garments with at least one usable row that are not far off from the others. */
  readonly garments: number;
  /** Their weight, old ones fading. */
  readonly weight: number;
  readonly rows: number;
  readonly variances: {
    readonly garment: number;
    readonly type: number;
    readonly kind: number;
    readonly pair: number;
    readonly noise: number;
  };
  readonly kinds: readonly {
    readonly kind: string;
    readonly rows: number;
    /** Weighted rows and weighted squares, from which the kind's own noise follows. */
    readonly weight: number;
    readonly squares: number;
    readonly meanLn: number;
  }[];
  readonly types: readonly {
    readonly garmentType: string;
    readonly garments: number;
    readonly pairs: readonly number[];
    readonly effects: readonly number[];
    readonly inverse: readonly number[];
    readonly carry: readonly number[];
  }[];
  /** How many of them are of each type, also those too old to count. */
  readonly ofType: readonly (readonly [garmentType: string, garments: number])[];
  /** Mean, kinds, size, repeat, change. */
  readonly effects: readonly number[];
  readonly covariance: readonly number[];
  readonly sweeps: number;
}

/** The inside of a fit, for the checks that switch parts of the model off. */
export interface Fit {
  readonly arranged: Arranged;
  readonly solution: Solution;
  readonly variances: Variances;
  readonly swept: Swept;
  readonly sweeps: number;
}

const LEAPING = ['garment', 'type', 'kind', 'pair'] as const;

/**
 * A variance that creeps towards its place by steps of a steady ratio is sent there at once (Aitken's rule), so that
 * about ten sweeps are enough. Where it should rest does not change by it.
 */
const leap = (
  variances: Variances,
  one: readonly number[],
  two: readonly number[],
  now: readonly number[],
) => {
  LEAPING.forEach((part, i) => {
    const first = Math.log(two[i]! / one[i]!);
    const second = Math.log(now[i]! / two[i]!);
    const ratio = second / first;
    if (!(ratio > 0.3 && ratio < 1.05) || Math.abs(second) < 1e-3) return;
    const further = ratio < 0.95 ? ratio / (1 - ratio) : 19;
    variances[part] *= Math.exp(Math.max(-1, Math.min(1, second * further)));
  });
};

const watched = (v: Variances): number[] => [v.garment, v.type, v.kind, v.pair, v.noise, ...v.noiseOf];

/**
 * The deterministic fit: solve, sweep, and again until no variance moves.
 *
 * @param garments rows of finished garments, oldest first
 * @param belief the starting values
 * @param from an earlier lesson to begin at
 * @returns the last solution with the variances it was solved at
 * @see test/reference/estimating/reml.test.ts
 */
export const fitRows = (garments: readonly GarmentOfRows[], belief: Belief, from?: Lesson): Fit => {
  const arranged = arrange(garments, belief);
  const noiseOf = from && new Map(from.kinds.map((kind) => [kind.kind, kindNoise(from, kind)]));
  const variances = startingVariances(arranged, belief, from?.variances, noiseOf);
  const trail = [watched(variances)];
  let solution: Solution;
  let swept: Swept;
  let sweeps = 0;
  let moved: number;
  do {
    solution = solve(arranged, belief, variances);
    swept = sweep(arranged, belief, solution, variances);
    sweeps += 1;
    const now = watched(variances);
    const before = trail.at(-1)!;
    moved = now.reduce((most, value, i) => Math.max(most, Math.abs(Math.log(value / before[i]!))), 0);
    trail.push(now);
    if (trail.length > 3 && moved > belief.tolerance) {
      leap(variances, trail.at(-3)!, before, now);
      trail.splice(0, trail.length, watched(variances));
    }
  } while (arranged.rows > 0 && moved > belief.tolerance && sweeps < belief.sweeps);
  if (arranged.rows === 0) Object.assign(variances, startingVariances(arranged, belief));
  return { arranged, solution, variances, swept, sweeps };
};

/** The noise of one kind, drawn to the pooled noise. */
export const kindNoise = (
  lesson: Pick<Lesson, 'belief' | 'variances'>,
  kind: { weight: number; squares: number } | undefined,
  base = lesson.variances.noise,
): number => {
  const { nuS } = lesson.belief;
  return (nuS * base + (kind?.squares ?? 0)) / (nuS + (kind?.weight ?? 0));
};

/**
 * What past work says: the mixed model fitted to finished garments. With no garments it is the prior itself.
 *
 * @param history finished garments, oldest first
 * @param options the answer to "do you usually run over?", other starting values, an earlier lesson to begin at
 * @returns the lesson, ready to be kept as JSON
 * @throws RangeError for minutes that are no minutes
 * @see test/reference/estimating/lesson.test.ts
 */
export const fitLesson = (
  history: readonly PastGarment[],
  options: { overruns?: Overruns; belief?: Partial<Belief>; from?: Lesson } = {},
): Lesson => {
  const belief = { ...STARTING_BELIEF, m0: usualOverrun(options.overruns ?? 'unknown'), ...options.belief };
  return lessonFrom(rowsOf(history), belief, options.from);
};

/**
 * The lesson of rows that are already at hand. Those far off from the others are not followed.
 *
 * @param all rows of finished garments, oldest first
 * @param belief the starting values
 * @param from an earlier lesson to begin at
 * @returns the lesson
 * @see nearRows
 */
export const lessonFrom = (all: readonly GarmentOfRows[], belief: Belief, from?: Lesson): Lesson => {
  const garments = nearRows(all, belief.halfLife);
  const { arranged, solution, variances, swept, sweeps } = fitRows(garments, belief, from);
  const ofType = new Map<string, number>();
  for (const { garmentType } of garments) ofType.set(garmentType, (ofType.get(garmentType) ?? 0) + 1);
  return {
    version: 1,
    belief,
    garments: garments.length,
    weight: swept.weight,
    rows: arranged.rows,
    variances: {
      garment: variances.garment,
      type: variances.type,
      kind: variances.kind,
      pair: variances.pair,
      noise: variances.noise,
    },
    kinds: arranged.kinds.map((kind, k) => ({
      ...kind,
      weight: swept.rowsOf[k]!,
      squares: swept.squaresOf[k]!,
    })),
    types: arranged.types.map((type, t) => ({
      garmentType: type.garmentType,
      garments: type.count,
      pairs: type.pairs,
      effects: [...solution.types[t]!.effects],
      inverse: [...solution.types[t]!.inverse],
      carry: [...solution.types[t]!.carry],
    })),
    ofType: [...ofType],
    effects: [...solution.effects],
    covariance: [...solution.covariance],
    sweeps,
  };
};
