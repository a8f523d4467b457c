import { normalQuantile } from '../chance/normal.js';
import { predict } from '../forecast/hours.js';
import { known, lognormalTotal, type Total } from '../forecast/total.js';
import { type GarmentOfRows, type PastGarment, rowsOf } from '../lesson/history.js';
import { type Lesson, lessonFrom } from '../lesson/lesson.js';
import { type Belief, type Overruns, STARTING_BELIEF, usualOverrun } from '../lesson/starting-values.js';

/** How well a way of estimating did. Shares are 0 to 1; `crps` and `medianBias` are on the log scale. */
export interface Score {
  /** Share inside the central 80 %. */
  readonly within80: number;
  readonly within90: number;
  /** Share that took no longer than the 4-in-5 figure. */
  readonly atMostP80: number;
  /** Mean of ln(actual / middle): above 0 where work ran longer than the middle said. */
  readonly medianBias: number;
  readonly crps: number;
}

/** One garment of the trail. */
export interface Proof {
  readonly garment: number;
  readonly garmentType: string;
  readonly planned: number;
  readonly actual: number;
  readonly middle: number;
  readonly fourInFive: number;
  /** How far it lay from the middle, made normal: one-step-ahead, so that a run of them tells of a change. */
  readonly z: number;
}

/** The lesson beside the maker's own plan and the last average ratio, each knowing only what came before. */
export interface Backtest {
  readonly garments: number;
  readonly refits: number;
  readonly lesson: Score;
  readonly ownPlan: Score;
  readonly averageRatio: Score;
  readonly trail: readonly Proof[];
}

const EMPTY: Score = { within80: 0, within90: 0, atMostP80: 0, medianBias: 0, crps: 0 };

/** Draws for each forecast of the proof: fewer than for a price, since many garments are asked. */
const PROOF_DRAWS = 1024;
/** Never more refits than about this, so that a long history is proved within a minute. */
const MOST_REFITS = 200;
/** A refit begins at the fit before and stops earlier: what it would still move is far below the doubt. */
const REFIT = { sweeps: 6, tolerance: 1e-2 };

/**
 * After how many garments the lesson is fitted anew: every garment at first, then every tenth part, never more than
 * every tenth garment unless the history is very long.
 *
 * @param done garments known
 * @param all garments in the whole history
 * @returns garments until the next fit, at least 1
 */
export const refitAfter = (done: number, all: number): number =>
  Math.max(1, Math.min(10, Math.floor(done / 10)), Math.ceil(all / MOST_REFITS));

const tally = () => {
  const sums = { ...EMPTY } as { -readonly [K in keyof Score]: number };
  let count = 0;
  const take = (total: Total, actual: number) => {
    count += 1;
    if (actual >= total.at(0.1) && actual <= total.at(0.9)) sums.within80 += 1;
    if (actual >= total.at(0.05) && actual <= total.at(0.95)) sums.within90 += 1;
    if (actual <= total.at(0.8)) sums.atMostP80 += 1;
    sums.medianBias += Math.log(actual / total.at(0.5));
    sums.crps += total.missedBy(actual);
  };
  const score = (): Score =>
    count === 0
      ? EMPTY
      : {
          within80: sums.within80 / count,
          within90: sums.within90 / count,
          atMostP80: sums.atMostP80 / count,
          medianBias: sums.medianBias / count,
          crps: sums.crps / count,
        };
  return { take, score };
};

/** Past ratios as one lognormal spread, begun at the starting spread worth four. */
const pooled = () => {
  let [n, sum, squares, actual, planned] = [0, 0, 0, 0, 0];
  return {
    take: (a: number, p: number) => {
      const y = Math.log(a / p);
      n += 1;
      sum += y;
      squares += y * y;
      actual += a;
      planned += p;
    },
    ratio: () => (planned > 0 ? actual / planned : 1),
    spread: () => {
      const about = n > 0 ? Math.max(0, squares - (sum * sum) / n) : 0;
      return Math.sqrt(
        (STARTING_BELIEF.nu0 * STARTING_BELIEF.noise ** 2 + about) /
          (STARTING_BELIEF.nu0 + Math.max(0, n - 1)),
      );
    },
  };
};

const planOf = ({ garmentType, again, rows }: GarmentOfRows) => ({
  garmentType,
  repeat: Math.exp(again),
  operations: rows.map((row) => ({ kind: row.kind, plannedMinutes: Math.exp(row.lnPlanned) })),
});

/**
 * The proof of the lesson on a studio's own past: each garment is forecast from what was known before it began, and
 * compared with what it took. Beside it the maker's own plan and the last average ratio, with the spread of past
 * ratios, so that anyone can see whether the model earns its place. Works on records of any trade.
 *
 * @param history finished garments, oldest first; operations without planned or worked minutes are left out
 * @param options the answer to "do you usually run over?" and other starting values
 * @returns scores, the number of garments and of refits, and the trail of single garments
 * @throws RangeError for minutes that are no minutes
 * @see Gneiting, Balabdaoui and Raftery, "Probabilistic forecasts, calibration and sharpness", JRSS B 69 (2007);
 *   test/reference/estimating/backtest.test.ts
 */
export const backtest = (
  history: readonly PastGarment[],
  options: { overruns?: Overruns; belief?: Partial<Belief> } = {},
): Backtest => {
  const belief: Belief = {
    ...STARTING_BELIEF,
    m0: usualOverrun(options.overruns ?? 'unknown'),
    ...options.belief,
  };
  const garments = rowsOf(history);
  const scores = { lesson: tally(), ownPlan: tally(), averageRatio: tally() };
  const ratios = pooled();
  const trail: Proof[] = [];
  let lesson: Lesson = lessonFrom([], belief);
  let [fittedAt, refits] = [0, 0];
  garments.forEach((garment, i) => {
    if (i - fittedAt >= refitAfter(fittedAt, garments.length)) {
      lesson =
        i < 20
          ? lessonFrom(garments.slice(0, i), belief)
          : lessonFrom(garments.slice(0, i), { ...belief, ...REFIT }, lesson);
      fittedAt = i;
      refits += 1;
    }
    const planned = garment.rows.reduce((sum, row) => sum + Math.exp(row.lnPlanned), 0);
    const actual = garment.rows.reduce((sum, row) => sum + Math.exp(row.lnPlanned + row.y), 0);
    const forecast = predict(lesson, planOf(garment), [], PROOF_DRAWS);
    const total: Total = {
      at: forecast.totalAt,
      chanceOver: forecast.chanceOver,
      missedBy: forecast.missedBy,
    };
    scores.lesson.take(total, actual);
    const spread = ratios.spread();
    const around = (middle: number) =>
      spread > 0 ? lognormalTotal(Math.log(middle), spread, Number.POSITIVE_INFINITY, 0) : known(middle);
    scores.ownPlan.take(around(planned), actual);
    scores.averageRatio.take(around(planned * ratios.ratio()), actual);
    ratios.take(actual, planned);
    const over = Math.min(1 - 1e-6, Math.max(1e-6, total.chanceOver(actual)));
    trail.push({
      garment: i,
      garmentType: garment.garmentType,
      planned,
      actual,
      middle: total.at(0.5),
      fourInFive: total.at(0.8),
      z: -normalQuantile(over),
    });
  });
  return {
    garments: garments.length,
    refits,
    lesson: scores.lesson.score(),
    ownPlan: scores.ownPlan.score(),
    averageRatio: scores.averageRatio.score(),
    trail,
  };
};
