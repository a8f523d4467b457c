import type { Flat } from '../algebra/cholesky.js';
import { normalQuantile } from '../chance/normal.js';
import { studentQuantile } from '../chance/student.js';
import type { PlannedGarment, PlannedOperation } from '../lesson/history.js';
import { kindNoise, type Lesson } from '../lesson/lesson.js';
import { freedomOf } from './freedom.js';

/** The joint forecast of the logarithms of ratios: means, what they share, and what each has of its own. */
export interface Joint {
  readonly size: number;
  readonly planned: readonly number[];
  readonly means: readonly number[];
  /** Covariance of what is shared, flat: doubt about the lesson, and the effect of one garment. */
  readonly shared: Flat;
  /** The part of `shared` that comes from one garment's effect; the rest comes from thin history. */
  readonly ofGarment: Flat;
  readonly noise: readonly number[];
  readonly noiseDegrees: readonly number[];
  readonly garmentDegrees: number;
  readonly historyDegrees: number;
}

/** A line of the forecast: which garment of the commission it belongs to, and the operation. */
export interface Line {
  readonly garment: number;
  readonly garmentType: string;
  readonly again: number;
  readonly operation: PlannedOperation;
}

interface Place {
  /** Weights on the shared coefficients, what the type carries already taken off. */
  readonly g: Float64Array;
  readonly Cg: Float64Array;
  readonly type: number;
  readonly local: readonly number[];
  readonly unknown: ReadonlyMap<string, number>;
  readonly mean: number;
}

/**
 * Reads a lesson for many lines: looks names up once.
 *
 * @param lesson the fitted lesson
 * @returns a function that places one line among the coefficients
 */
const reader = (lesson: Lesson) => {
  const kindAt = new Map(lesson.kinds.map(({ kind }, index) => [kind, index]));
  const typeAt = new Map(lesson.types.map(({ garmentType }, index) => [garmentType, index]));
  const size = lesson.effects.length;
  return (line: Line): Place => {
    const { kind } = line.operation;
    const k = kindAt.get(kind) ?? -1;
    const t = typeAt.get(line.garmentType) ?? -1;
    const g = new Float64Array(size);
    const unknown = new Map<string, number>();
    g[0] = 1;
    if (k >= 0) {
      g[1 + k] = 1;
      g[size - 3] = Math.log(line.operation.plannedMinutes) - lesson.kinds[k]!.meanLn;
    } else unknown.set(`kind ${kind}`, lesson.variances.kind);
    g[size - 2] = line.again;
    const local: number[] = [];
    const type = lesson.types[t];
    if (type) {
      local.push(0);
      const pair = type.pairs.indexOf(k);
      if (pair >= 0) local.push(pair + 1);
      else unknown.set(`pair ${line.garmentType} ${kind}`, lesson.variances.pair);
    } else {
      unknown.set(`type ${line.garmentType}`, lesson.variances.type);
      unknown.set(`pair ${line.garmentType} ${kind}`, lesson.variances.pair);
    }
    let mean = 0;
    for (let i = 0; i < size; i += 1) mean += g[i]! * lesson.effects[i]!;
    for (const at of local) {
      mean += type!.effects[at]!;
      for (let i = 0; i < size; i += 1) g[i]! -= type!.carry[at * size + i]!;
    }
    const Cg = new Float64Array(size);
    for (let j = 0; j < size; j += 1) {
      const weight = g[j]!;
      if (weight === 0) continue;
      for (let i = 0; i < size; i += 1) Cg[i]! += weight * lesson.covariance[j * size + i]!;
    }
    // A line from the starting values was never planned by this maker: what is left of the prior's overrun goes.
    if (line.operation.fromStartingValues) mean -= (lesson.belief.m0 * Cg[0]!) / lesson.belief.s0 ** 2;
    return { g, Cg, type: t, local, unknown, mean };
  };
};

const historyShared = (lesson: Lesson, a: Place, b: Place): number => {
  let sum = 0;
  for (let i = 0; i < a.g.length; i += 1) sum += a.g[i]! * b.Cg[i]!;
  if (a.type >= 0 && a.type === b.type) {
    const { inverse, effects } = lesson.types[a.type]!;
    for (const i of a.local) for (const j of b.local) sum += inverse[i * effects.length + j]!;
  }
  for (const [name, variance] of a.unknown) if (b.unknown.has(name)) sum += variance;
  return sum;
};

/**
 * The garments of a commission as numbered lines; operations with no planned minutes have none.
 *
 * @param garments the garments
 * @returns the lines, garment by garment
 */
export const linesOf = (garments: readonly PlannedGarment[]): Line[] =>
  garments.flatMap(({ garmentType, operations, repeat }, garment) =>
    operations.map((operation) => ({
      garment,
      garmentType,
      again: Math.log(Math.max(1, repeat ?? 1)),
      operation,
    })),
  );

/**
 * The joint forecast of lines: m = x'b, covariance x_i'C x_j + w_g² within a garment + sigma_k² for each itself,
 * and the prior variance of whatever was never seen.
 *
 * @param lesson the fitted lesson
 * @param lines operations with planned minutes above 0
 * @returns means and covariances on the log scale, with the degrees of freedom of each part
 * @see test/reference/estimating/lesson.test.ts
 */
export const forecastJoint = (lesson: Lesson, lines: readonly Line[]): Joint => {
  const n = lines.length;
  const read = reader(lesson);
  const places = lines.map(read);
  const kinds = new Map(lesson.kinds.map((kind) => [kind.kind, kind]));
  const shared = new Float64Array(n * n);
  const ofGarment = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1)
    for (let j = 0; j <= i; j += 1) {
      const own = lines[i]!.garment === lines[j]!.garment ? lesson.variances.garment : 0;
      const both = own + historyShared(lesson, places[i]!, places[j]!);
      ofGarment[i * n + j] = ofGarment[j * n + i] = own;
      shared[i * n + j] = shared[j * n + i] = both;
    }
  const { nu0, nuS } = lesson.belief;
  return {
    size: n,
    planned: lines.map((line) => line.operation.plannedMinutes),
    means: places.map((place) => place.mean),
    shared,
    ofGarment,
    noise: lines.map(({ operation }) => {
      const spread = operation.startingSpread;
      // A spread of nothing is no knowledge but a slip: nobody's work varies by less than one per cent.
      const base = spread === undefined ? undefined : Math.max(1e-4, spread ** 2);
      return kindNoise(lesson, kinds.get(operation.kind), base);
    }),
    noiseDegrees: lines.map(({ operation }) => {
      const seen = kinds.get(operation.kind)?.weight ?? 0;
      return 1 / (1 / lesson.belief.noiseDegrees + 1 / (nuS + seen));
    }),
    garmentDegrees: nu0 + lesson.weight,
    historyDegrees: nu0 + lesson.kinds.length,
  };
};

/** Variance and degrees of freedom of one line on its own. */
export const ownSpread = (joint: Joint, i: number): { variance: number; degrees: number } => {
  const at = i * joint.size + i;
  const history = Math.max(0, joint.shared[at]! - joint.ofGarment[at]!);
  const degrees = freedomOf([
    [history, joint.historyDegrees],
    [joint.ofGarment[at]!, joint.garmentDegrees],
    [joint.noise[i]!, joint.noiseDegrees[i]!],
  ]);
  return { variance: Math.max(0, joint.shared[at]!) + joint.noise[i]!, degrees };
};

const factors = new Map<number, number>();

/** The noise made wide enough that its 9 in 10 is that of its t: sigma² (t / z)² at 0.9. */
export const widened = (joint: Joint, i: number): number => {
  const degrees = joint.noiseDegrees[i]!;
  let factor = factors.get(degrees);
  if (factor === undefined) {
    factor = (studentQuantile(0.9, degrees) / normalQuantile(0.9)) ** 2;
    if (factors.size > 500) factors.clear();
    factors.set(degrees, factor);
  }
  return joint.noise[i]! * factor;
};
