import { studentChance, studentQuantile } from '../chance/student.js';
import { crps, crpsOfDraws } from '../proof/crps.js';
import { whileUnderWay } from './condition.js';
import { DRAWS, drawSums } from './drawn.js';
import { freedomOf } from './freedom.js';
import { type Joint, ownSpread, widened } from './joint.js';
import { lognormalSum } from './lognormal-sum.js';

/** A number of minutes that is not known yet. */
export interface Total {
  /** Minutes that are not exceeded with chance q. */
  readonly at: (q: number) => number;
  /** The chance of taking more than so many minutes. */
  readonly chanceOver: (minutes: number) => number;
  /** How far the forecast was from what it took, on the log scale. */
  readonly missedBy: (minutes: number) => number;
}

/** Where the doubt comes from; the three add to 1. */
export interface Doubt {
  readonly garment: number;
  readonly history: number;
  readonly operations: number;
}

/** Minutes that are known. */
export const known = (minutes: number): Total => ({
  at: () => minutes,
  chanceOver: (limit) => (minutes > limit ? 1 : 0),
  missedBy: (actual) => Math.abs(Math.log(actual / minutes)),
});

/** Minutes whose logarithm is a Student t around mu, on top of minutes already spent. */
export const lognormalTotal = (mu: number, s: number, degrees: number, spent: number): Total => ({
  at: (q) => spent + Math.exp(mu + studentQuantile(q, degrees) * s),
  chanceOver: (minutes) =>
    minutes <= spent ? 1 : studentChance((mu - Math.log(minutes - spent)) / s, degrees),
  missedBy: (minutes) => crps(Math.log(Math.max(1e-9, minutes - spent)), mu, s, degrees),
});

const drawn = (sorted: Float64Array, spent: number): Total => {
  const n = sorted.length;
  return {
    at: (q) => {
      const place = Math.min(n - 1, Math.max(0, q * n - 0.5));
      const low = Math.floor(place);
      const high = Math.min(n - 1, low + 1);
      return spent + sorted[low]! + (place - low) * (sorted[high]! - sorted[low]!);
    },
    chanceOver: (minutes) => {
      const left = minutes - spent;
      if (left < sorted[0]!) return left <= 0 ? 1 : 1 - 0.5 / n;
      if (left >= sorted[n - 1]!) return 0.5 / n;
      let [low, high] = [0, n - 1];
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (sorted[middle]! <= left) low = middle;
        else high = middle;
      }
      const step = sorted[high]! - sorted[low]!;
      return 1 - (low + 0.5 + (step > 0 ? (left - sorted[low]!) / step : 0)) / n;
    },
    missedBy: (minutes) =>
      crpsOfDraws(
        Math.log(minutes),
        sorted.map((left) => Math.log(spent + left)),
      ),
  };
};

/** Variance of the log of the total by where it comes from, weighted by what each operation is expected to take. */
const doubtOf = (joint: Joint): { doubt: Doubt; degrees: number; sharedDegrees: number; largest: number } => {
  const n = joint.size;
  const own = joint.planned.map((_, i) => widened(joint, i));
  const expected = joint.planned.map(
    (minutes, i) => minutes * Math.exp(joint.means[i]! + (joint.shared[i * n + i]! + own[i]!) / 2),
  );
  let [garment, shared, operations] = [0, 0, 0];
  for (let i = 0; i < n; i += 1) {
    operations += expected[i]! ** 2 * own[i]!;
    for (let j = 0; j < n; j += 1) {
      garment += expected[i]! * expected[j]! * joint.ofGarment[i * n + j]!;
      shared += expected[i]! * expected[j]! * joint.shared[i * n + j]!;
    }
  }
  const history = Math.max(0, shared - garment);
  const whole = garment + history + operations || 1;
  const [a, b, c] = [garment / whole, history / whole, operations / whole];
  const parts = [
    [a, joint.garmentDegrees],
    [b, joint.historyDegrees],
  ] as const;
  return {
    doubt: { garment: a, history: b, operations: c },
    degrees: freedomOf([...parts, [c, 60]]),
    sharedDegrees: freedomOf(parts),
    largest: Math.max(...expected) / expected.reduce((x, y) => x + y, 0),
  };
};

const alone = (joint: Joint, i: number, share: number, soFar: number, spent: number): Total => {
  const { variance, degrees } = ownSpread(joint, i);
  const s = Math.sqrt(variance);
  const planned = joint.planned[i]! * share;
  if (soFar <= 0) return lognormalTotal(Math.log(planned) + joint.means[i]!, s, degrees, spent);
  const edge = Math.log(soFar / joint.planned[i]!) - joint.means[i]!;
  const above = studentChance(-edge / s, degrees);
  return {
    at: (q) => spent + share * whileUnderWay(q, soFar, joint.planned[i]!, joint.means[i]!, s, degrees),
    chanceOver: (minutes) => {
      const left = (minutes - spent) / share;
      if (left <= soFar) return 1;
      const beyond = studentChance((joint.means[i]! - Math.log(left / joint.planned[i]!)) / s, degrees);
      return above > 1e-290 ? beyond / above : 0;
    },
    missedBy: (minutes) => crps(Math.log(minutes / planned), joint.means[i]!, s, degrees),
  };
};

const scaled = (joint: Joint, keep: readonly number[], shares: readonly number[], degrees: number): Total => {
  const n = joint.size;
  const S = new Float64Array(keep.length ** 2);
  keep.forEach((i, a) => {
    keep.forEach((j, b) => {
      S[a * keep.length + b] = joint.shared[i * n + j]! + (i === j ? widened(joint, i) : 0);
    });
  });
  const { mu, s } = lognormalSum(
    keep.map((i) => joint.planned[i]! * shares[i]!),
    keep.map((i) => joint.means[i]!),
    S,
  );
  return lognormalTotal(mu, s, degrees, 0);
};

/**
 * Totals of the operations that are left, one for each group, with what is spent already on top: one lognormal for
 * the sum where there is enough history, 4,096 stratified draws where its degrees of freedom are below 12, where one
 * operation is over half, or where one is under way. One operation alone needs neither.
 *
 * @param joint the forecast of the operations that are left, each with planned minutes above 0
 * @param soFar minutes so far of each; 0 where not begun
 * @param groups share of each operation in each group, and minutes spent in it; the first group decides the way
 * @param draws how many draws, if draws are needed
 * @returns a total for each group, and where the doubt of the whole comes from
 * @see test/reference/estimating/totals.test.ts
 */
export const totalsOf = (
  joint: Joint,
  soFar: readonly number[],
  groups: readonly { shares: readonly number[]; spent: number }[],
  draws = DRAWS,
): { totals: Total[]; doubt: Doubt } => {
  if (joint.size === 0)
    return {
      totals: groups.map(({ spent }) => known(spent)),
      doubt: { garment: 0, history: 0, operations: 0 },
    };
  const { doubt, degrees, sharedDegrees, largest } = doubtOf(joint);
  const needDraws = joint.size > 1 && (degrees < 12 || largest > 0.5 || soFar.some((minutes) => minutes > 0));
  const sums = needDraws
    ? drawSums(
        joint,
        soFar,
        groups.map(({ shares }) => shares),
        sharedDegrees,
        draws,
      )
    : [];
  const totals = groups.map(({ shares, spent }, g) => {
    const keep = shares.flatMap((share, i) => (share > 0 ? [i] : []));
    if (keep.length === 0) return known(spent);
    if (keep.length === 1) return alone(joint, keep[0]!, shares[keep[0]!]!, soFar[keep[0]!]!, spent);
    return needDraws ? drawn(sums[g]!, spent) : withSpent(scaled(joint, keep, shares, degrees), spent);
  });
  return { totals, doubt };
};

const withSpent = (total: Total, spent: number): Total =>
  spent === 0
    ? total
    : {
        at: (q) => spent + total.at(q),
        chanceOver: (minutes) => (minutes <= spent ? 1 : total.chanceOver(minutes - spent)),
        missedBy: (minutes) => total.missedBy(Math.max(1e-9, minutes - spent)),
      };
