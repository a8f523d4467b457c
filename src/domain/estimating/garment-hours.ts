import { near } from './far-off.js';
import { type HoursForecast, type PricedMinutes, predict } from './forecast/hours.js';
import { type Doubt, lognormalTotal, type Total } from './forecast/total.js';
import type { PlannedGarment } from './lesson/history.js';
import type { Lesson } from './lesson/lesson.js';
import { learnt, STARTING_HOURS } from './true-hours.js';

/** One garment of the type out of a notebook: what it took, and what had been planned where that is known. */
export interface NotebookTotal {
  readonly minutes: number;
  readonly plannedMinutes?: number;
}

/** What a garment will take, and what that rests on. */
export interface GarmentHours {
  /** `starting`: nothing of the studio's own; `notebook`: totals of such garments; `lesson`: garments by operation. */
  readonly rests: { readonly on: 'starting' | 'notebook' | 'lesson'; readonly garments: number };
  /** Minutes that are not exceeded with chance q. */
  readonly at: (q: number) => number;
  /** The chance of taking more than so many minutes. */
  readonly chanceOver: (minutes: number) => number;
  /** The total at q, shared over operations and modes by what each takes at even chance. */
  readonly splitAt: (q: number) => PricedMinutes;
  /** Minutes of one mode at q; modes do not add up to the total's quantile. */
  readonly byModeAt: (q: number) => Readonly<Record<string, number>>;
  readonly doubt: Doubt;
}

/**
 * Minutes of a planned garment at any chance, from the lesson and from notebook totals of such garments.
 *
 * Where the notebook holds totals of the type, the total follows the closed form of true hours: each total is brought to
 * the size of this plan (× this plan ÷ what was planned then, or ÷ the type's usual plan), and this plan's own even-chance
 * total is the guess, worth one garment. So the next pocket still moves the hours, and six garments outweigh one guess. Once as
 * many garments of the type are known by operation, or five, the lesson speaks alone. Totals far off from the others do not count.
 *
 * @param input.plan the plan, minutes by operation
 * @param input.lesson the fitted lesson; fitted to nothing, it holds the starting values
 * @param input.notebook totals of garments of the same type, in minutes above 0
 * @param input.usualMinutes planned minutes of the type's usual plan; 0 when there is none
 * @returns minutes as decimals, unrounded
 * @throws RangeError for minutes that are no minutes
 * @see test/domain/estimating/garment-hours.test.ts
 */
export const garmentHours = (input: {
  readonly plan: PlannedGarment;
  readonly lesson: Lesson;
  readonly notebook?: readonly NotebookTotal[];
  readonly usualMinutes?: number;
}): GarmentHours => {
  const { plan, lesson, notebook = [], usualMinutes = 0 } = input;
  const forecast = predict(lesson, plan);
  const planned = plan.operations.reduce((sum, operation) => sum + operation.plannedMinutes, 0);
  const even = forecast.totalAt(0.5);
  if (!speaks(notebook, lesson, plan.garmentType) || planned === 0 || !(even > 0))
    return fromLesson(forecast, lesson);
  const total = fromNotebook(notebook, planned, usualMinutes, even);
  const stretch = (q: number): number => total.at(q) / forecast.totalAt(q);
  return {
    rests: { on: 'notebook', garments: notebook.length },
    at: total.at,
    chanceOver: total.chanceOver,
    splitAt: (q) => stretched(forecast.splitAt(q), stretch(q)),
    byModeAt: (q) => scaled(modesAt(forecast, plan, lesson, q), stretch(q)),
    // Of the variance s² (1 + 1 / kappa), one part is the garment's own, 1 / kappa is what few garments leave open.
    doubt: {
      garment: (notebook.length + 1) / (notebook.length + 2),
      history: 1 / (notebook.length + 2),
      operations: 0,
    },
  };
};

/** So many garments by operation outweigh any notebook. */
const ENOUGH = 5;

/** The notebook speaks until there are as many garments of the type by operation, or five. */
const speaks = (notebook: readonly NotebookTotal[], lesson: Lesson, garmentType: string): boolean => {
  const byOperation = lesson.ofType.find(([type]) => type === garmentType)?.[1] ?? 0;
  return notebook.length > 0 && byOperation < Math.min(ENOUGH, notebook.length);
};

/**
 * What the notebook makes of a planned minute: even-chance minutes by `garmentHours` ÷ those of the lesson alone. A garment under
 * way is foretold from its planned minutes × this, so that before the first stitch it lands where its price was worked out.
 *
 * @returns 1 where the notebook is silent
 * @see test/domain/estimating/garment-hours.test.ts
 */
export const notebookStretch = (input: Parameters<typeof garmentHours>[0]): number => {
  const { plan, lesson, notebook = [], usualMinutes = 0 } = input;
  if (!speaks(notebook, lesson, plan.garmentType)) return 1;
  const planned = plan.operations.reduce((sum, operation) => sum + operation.plannedMinutes, 0);
  const even = predict(lesson, plan, [0.5]).totalAt(0.5);
  return planned > 0 && even > 0 ? fromNotebook(notebook, planned, usualMinutes, even).at(0.5) / even : 1;
};

const fromLesson = (forecast: HoursForecast, lesson: Lesson): GarmentHours => ({
  rests: { on: lesson.garments > 0 ? 'lesson' : 'starting', garments: forecast.rests.garments },
  at: forecast.totalAt,
  chanceOver: forecast.chanceOver,
  splitAt: forecast.splitAt,
  byModeAt: (q) => keyedModes(forecast, q) ?? forecast.splitAt(q).byMode,
  doubt: forecast.doubt,
});

const fromNotebook = (
  notebook: readonly NotebookTotal[],
  planned: number,
  usualMinutes: number,
  even: number,
): Total => {
  const brought = notebook.map((one) => {
    const then = one.plannedMinutes ?? usualMinutes;
    return then > 0 ? (one.minutes * planned) / then : one.minutes;
  });
  const logs = near(brought).map((minutes) => Math.log(minutes));
  const { mu, nu, kappa, variance } = learnt(logs, Math.log(even), STARTING_HOURS);
  return lognormalTotal(mu, Math.sqrt(variance * (1 + 1 / kappa)), nu, 0);
};

const keyedModes = (forecast: HoursForecast, q: number): Record<string, number> | undefined => {
  const entries = Object.entries(forecast.byMode).map(([mode, at]): [string, number | undefined] => [
    mode,
    at[String(q)],
  ]);
  return entries.every((entry): entry is [string, number] => entry[1] !== undefined)
    ? Object.fromEntries(entries)
    : undefined;
};

const modesAt = (
  forecast: HoursForecast,
  plan: PlannedGarment,
  lesson: Lesson,
  q: number,
): Readonly<Record<string, number>> =>
  keyedModes(forecast, q) ?? keyedModes(predict(lesson, plan, [q]), q) ?? {};

const scaled = (byMode: Readonly<Record<string, number>>, by: number): Record<string, number> =>
  Object.fromEntries(Object.entries(byMode).map(([mode, minutes]) => [mode, minutes * by]));

const stretched = (split: PricedMinutes, by: number): PricedMinutes => ({
  total: split.total * by,
  operations: split.operations.map((minutes) => minutes * by),
  byMode: scaled(split.byMode, by),
});
