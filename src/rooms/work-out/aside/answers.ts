import { estimateHours } from '../../../domain/estimating/forecast/hours.js';
import type { PastGarment, PlannedGarment } from '../../../domain/estimating/lesson/history.js';
import type { Overruns } from '../../../domain/estimating/lesson/starting-values.js';
import { backtest } from '../../../domain/estimating/proof/backtest.js';

/** A question that can take seconds, as plain values that travel between threads. */
export type LongQuestion =
  | {
      readonly about: 'hours';
      readonly history: readonly PastGarment[];
      readonly garment: PlannedGarment;
      readonly certainty: readonly number[];
      readonly overruns: Overruns;
    }
  | { readonly about: 'backtest'; readonly history: readonly PastGarment[]; readonly overruns: Overruns };

/** The answer in plain values: what a forecast can still be asked stays behind. */
export const answerTo = (asked: LongQuestion): unknown => {
  if (asked.about === 'backtest') {
    const { garments, refits, lesson, ownPlan, averageRatio } = backtest(asked.history, {
      overruns: asked.overruns,
    });
    return { garments, refits, lesson, ownPlan, averageRatio };
  }
  const { rests, total, operations, byMode, doubt, keptBack } = estimateHours(asked);
  return { rests, total, operations, byMode, doubt, keptBack };
};
