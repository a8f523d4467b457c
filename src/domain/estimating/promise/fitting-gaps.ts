import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { FittingGap } from './simulate.js';

/** Days a garment waits for a fitting nobody has named a day for; ours, judgement. */
export const USUAL_WAIT = 7;

/** One operation of a plan as the waiting sees it. */
export type OperationAhead = {
  /** Minutes it still takes at even chance; 0 when finished. */
  readonly left: number;
  /** Is it a fitting, between making and making on? */
  readonly isFitting: boolean;
  readonly isFinished: boolean;
};

const inside = (share: number): number => Math.min(0.999, Math.max(0.001, share));

/**
 * Where in the work that is left a garment waits for its fittings, and how long.
 *
 * Each unfinished fitting of the plan is a pause at the share of the minutes that come before it; planned fittings give them their
 * days in turn, the others wait seven days. Where more fittings are planned than the plan has left, they stand at even distances. A
 * fitting that was held counts even where nobody marked its operation as finished.
 *
 * @param operations in the order of the plan
 * @param held how many fittings of the garment were held
 * @param planned days of the fittings that are planned and not held, in order
 * @returns pauses in the order in which they come; none where nothing is left to do
 * @see test/domain/estimating/weekly-hours.test.ts
 */
export const fittingGaps = (
  operations: readonly OperationAhead[],
  held: number,
  planned: readonly CalendarDate[],
): FittingGap[] => {
  const whole = operations.reduce((sum, { left }) => sum + left, 0);
  if (!(whole > 0)) return [];
  const fittings = operations.filter(({ isFitting }) => isFitting);
  const unmarked = Math.max(0, held - fittings.filter(({ isFinished }) => isFinished).length);
  let before = 0;
  const places = operations
    .flatMap(({ left, isFitting, isFinished }) => {
      const at = before / whole;
      before += left;
      return isFitting && !isFinished ? [at] : [];
    })
    .slice(unmarked);
  const shares =
    planned.length > places.length ? planned.map((_, place) => (place + 1) / (planned.length + 1)) : places;
  return shares.map((share, place) => {
    const on = planned[place];
    return { after: inside(share), days: USUAL_WAIT, ...(on === undefined ? {} : { on }) };
  });
};
