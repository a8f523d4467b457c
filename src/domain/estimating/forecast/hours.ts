import { studentQuantile } from '../chance/student.js';
import {
  BARELY,
  checkedMinutes,
  type PastGarment,
  type PlannedGarment,
  type PlannedOperation,
} from '../lesson/history.js';
import { fitLesson, type Lesson } from '../lesson/lesson.js';
import type { Overruns } from '../lesson/starting-values.js';
import { afterFinished, afterSoFar, afterTheOthers, only, whileUnderWay } from './condition.js';
import { forecastJoint, type Joint, type Line, linesOf, ownSpread } from './joint.js';
import { type Doubt, totalsOf } from './total.js';

/** Minutes at each certainty that was asked for, keyed "0.5", "0.8" and so on. */
export type AtCertainty = Readonly<Record<string, number>>;

/** One operation's minutes at each certainty. */
export interface OperationHours {
  readonly kind: string;
  readonly mode?: string;
  readonly [certainty: `${number}`]: number;
}

/** What a garment will take. All in minutes. */
export interface HoursForecast {
  readonly rests: { readonly garments: number; readonly ofThisType: number };
  readonly total: AtCertainty;
  /** In the order of the plan. */
  readonly operations: readonly OperationHours[];
  readonly byMode: Readonly<Record<string, AtCertainty>>;
  readonly doubt: Doubt;
  /** Each operation at even chance, in the order of the plan. */
  readonly medians: readonly number[];
  /** The total at each certainty less the total at even chance. */
  readonly keptBack: AtCertainty;
  /** The total at any chance above 0 and below 1. */
  readonly totalAt: (q: number) => number;
  /** The chance that the whole takes more than so many minutes. */
  readonly chanceOver: (minutes: number) => number;
  /** The total at q, shared over operations and modes by what each takes at even chance: the priced minutes. */
  readonly splitAt: (q: number) => PricedMinutes;
  /** How far the forecast was from what it took, on the log scale. */
  readonly missedBy: (minutes: number) => number;
}

/** A total with its shares. */
export interface PricedMinutes {
  readonly total: number;
  readonly operations: readonly number[];
  readonly byMode: Readonly<Record<string, number>>;
}

/** The share of each mode in an operation; "other" where none is named. */
export const modesOf = (operation: PlannedOperation): [mode: string, share: number][] => {
  const named = Object.entries(operation.modes ?? {}).filter(([, share]) => share > 0);
  const whole = named.reduce((sum, [, share]) => sum + share, 0);
  if (whole > 0) return named.map(([mode, share]) => [mode, share / whole]);
  return [[operation.mode ?? 'other', 1]];
};

const isOpen = ({ operation }: Line) =>
  operation.plannedMinutes >= BARELY && operation.finishedMinutes === undefined;

/** Minutes that are certain: of a finished operation, or of one that nobody gave a plan. */
const spentOn = ({ operation }: Line): number => operation.finishedMinutes ?? operation.soFarMinutes ?? 0;

const inFixedOrder = (a: Line, b: Line): number =>
  a.garment - b.garment ||
  b.operation.plannedMinutes - a.operation.plannedMinutes ||
  (a.operation.kind < b.operation.kind ? -1 : a.operation.kind > b.operation.kind ? 1 : 0) ||
  ((a.operation.mode ?? '') < (b.operation.mode ?? '')
    ? -1
    : (a.operation.mode ?? '') > (b.operation.mode ?? '')
      ? 1
      : 0) ||
  (b.operation.soFarMinutes ?? 0) - (a.operation.soFarMinutes ?? 0) ||
  (b.operation.startingSpread ?? 0) - (a.operation.startingSpread ?? 0);

const check = ({ operation }: Line): void => {
  checkedMinutes(operation.plannedMinutes, 'Planned time');
  checkedMinutes(operation.finishedMinutes ?? 0, 'Time worked');
  checkedMinutes(operation.soFarMinutes ?? 0, 'Time so far');
  checkedMinutes(operation.startingSpread ?? 0, 'A starting spread');
};

/** Minutes at q of one open line among the others. */
const lineAt = (joint: Joint, i: number, soFar: number) => {
  const { variance, degrees } = ownSpread(joint, i);
  const s = Math.sqrt(variance);
  return (q: number): number =>
    soFar > 0
      ? whileUnderWay(q, soFar, joint.planned[i]!, joint.means[i]!, s, degrees)
      : joint.planned[i]! * Math.exp(joint.means[i]! + studentQuantile(q, degrees) * s);
};

/**
 * What several garments of one commission will take together. Their doubts about the lesson are shared; each garment's
 * own effect is its own. Medians of modes or garments do not add up to the median of the whole.
 *
 * @param lesson the fitted lesson
 * @param garments the garments; operations may be finished or under way
 * @param certainty chances asked for, each above 0 and below 1
 * @param draws how many draws stand for a total that needs them
 * @returns minutes as decimals, unrounded
 * @throws RangeError for minutes that are no minutes, or a certainty outside 0 to 1
 * @see test/reference/estimating/lesson.test.ts
 */
export const predictAll = (
  lesson: Lesson,
  garments: readonly PlannedGarment[],
  certainty: readonly number[] = [0.5, 0.8, 0.9],
  draws?: number,
): HoursForecast => {
  for (const q of certainty)
    if (!(q > 0 && q < 1)) throw new RangeError('A certainty lies above 0 and below 1.');
  const lines = linesOf(garments);
  lines.forEach(check);
  const withPlan = lines.filter(({ operation }) => operation.plannedMinutes >= BARELY).sort(inFixedOrder);
  const finished = withPlan.flatMap(({ operation }, at) =>
    (operation.finishedMinutes ?? 0) >= BARELY
      ? [{ at, y: Math.log(operation.finishedMinutes! / operation.plannedMinutes) }]
      : [],
  );
  const news = afterFinished(forecastJoint(lesson, withPlan), finished);
  const openAt = withPlan.flatMap((line, i) => (isOpen(line) ? [i] : []));
  const joint = only(news, openAt);
  const open = openAt.map((i) => withPlan[i]!);
  const soFar = open.map(({ operation: { soFarMinutes = 0 } }) => (soFarMinutes < BARELY ? 0 : soFarMinutes));
  const placeOf = new Map(open.map((line, i) => [line, i]));

  const begun = soFar.flatMap((minutes, i) => (minutes > 0 ? [i] : []));
  const ratios = soFar.map((minutes, i) => Math.log(minutes / joint.planned[i]!));
  const amongBegun = begun.reduce((seen, other) => afterSoFar(seen, other, ratios[other]!), joint);
  const amongOthers = afterTheOthers(joint, begun, ratios);
  const minutesAt = lines.map((line) => {
    const i = placeOf.get(line);
    if (i === undefined) return () => spentOn(line);
    return lineAt(amongOthers.get(i) ?? amongBegun, i, soFar[i]!);
  });

  const modes = [
    ...new Set(lines.flatMap(({ operation }) => modesOf(operation).map(([mode]) => mode))),
  ].sort();
  const shareOf = (line: Line, mode: string) =>
    modesOf(line.operation).reduce((sum, [name, share]) => (name === mode ? sum + share : sum), 0);
  const closed = lines.filter((line) => !placeOf.has(line));
  const groups = [
    { shares: open.map(() => 1), spent: closed.reduce((sum, line) => sum + spentOn(line), 0) },
    ...modes.map((mode) => ({
      shares: open.map((line) => shareOf(line, mode)),
      spent: closed.reduce((sum, line) => sum + spentOn(line) * shareOf(line, mode), 0),
    })),
  ];
  const { totals, doubt } = totalsOf(joint, soFar, groups, draws);
  const total = totals[0]!;
  const keyed = (at: (q: number) => number): Record<`${number}`, number> =>
    Object.fromEntries(certainty.map((q) => [String(q), at(q)]));
  const medians = minutesAt.map((at) => at(0.5));
  const even = total.at(0.5);
  return {
    rests: {
      garments: lesson.garments,
      ofThisType: lesson.ofType.find(([type]) => type === garments[0]?.garmentType)?.[1] ?? 0,
    },
    total: keyed(total.at),
    operations: lines.map(({ operation }, i) => ({
      kind: operation.kind,
      ...(operation.mode === undefined ? {} : { mode: operation.mode }),
      ...keyed(minutesAt[i]!),
    })),
    byMode: Object.fromEntries(modes.map((mode, m) => [mode, keyed(totals[m + 1]!.at)])),
    doubt,
    medians,
    keptBack: keyed((q) => total.at(q) - even),
    totalAt: total.at,
    chanceOver: total.chanceOver,
    splitAt: (q) => split(total.at(q), lines, medians, (line) => placeOf.has(line)),
    missedBy: total.missedBy,
  };
};

const split = (
  total: number,
  lines: readonly Line[],
  medians: readonly number[],
  isLeft: (line: Line) => boolean,
): PricedMinutes => {
  const certain = lines.reduce((sum, line, i) => (isLeft(line) ? sum : sum + medians[i]!), 0);
  const left = lines.reduce((sum, line, i) => (isLeft(line) ? sum + medians[i]! : sum), 0);
  const operations = medians.map((median, i) =>
    isLeft(lines[i]!) ? ((total - certain) * median) / left : median,
  );
  const byMode = new Map<string, number>();
  lines.forEach(({ operation }, i) => {
    for (const [mode, share] of modesOf(operation))
      byMode.set(mode, (byMode.get(mode) ?? 0) + share * operations[i]!);
  });
  return { total, operations, byMode: Object.fromEntries(byMode) };
};

/**
 * What one garment will take, from a lesson that is already fitted.
 *
 * @param lesson the fitted lesson
 * @param garment the plan; operations may be finished or under way
 * @param certainty chances asked for, each above 0 and below 1
 * @param draws how many draws stand for a total that needs them
 * @returns minutes as decimals, unrounded
 * @throws RangeError for minutes that are no minutes, or a certainty outside 0 to 1
 */
export const predict = (
  lesson: Lesson,
  garment: PlannedGarment,
  certainty?: readonly number[],
  draws?: number,
): HoursForecast => predictAll(lesson, [garment], certainty, draws);

/**
 * What one garment will take, from the garments made before: fit and forecast in one. With no history it rests on the
 * starting values alone, and says so by `rests`.
 *
 * @param input finished garments oldest first, the plan, chances asked for, the answer to "do you usually run over?"
 * @returns minutes as decimals, unrounded
 * @throws RangeError for minutes that are no minutes, or a certainty outside 0 to 1
 * @see test/reference/estimating/lesson.test.ts
 */
export const estimateHours = (input: {
  readonly history?: readonly PastGarment[];
  readonly garment: PlannedGarment;
  readonly certainty?: readonly number[];
  readonly overruns?: Overruns;
}): HoursForecast =>
  predict(fitLesson(input.history ?? [], { overruns: input.overruns }), input.garment, input.certainty);
