import { geometricMean } from '../estimating/geometric-mean.js';
import { Decimal } from '../kernel/decimal.js';

/** A garment's hours, taken and planned, both above 0. */
export type PlannedAndTaken = { readonly hours: Decimal; readonly plannedHours: Decimal };

/**
 * By how much plans are usually overrun: the geometric mean of taken / planned, exp(mean of ln(taken / planned)).
 *
 * @returns how many garments it rests on and the ratio to four decimals (1.25 is a quarter over); nothing without any
 * @see test/domain/lessons/type-lesson.test.ts WS-19
 */
export const usualOverrun = (
  past: readonly PlannedAndTaken[],
): { readonly garments: number; readonly ratio: Decimal } | undefined => {
  if (past.length === 0) return undefined;
  const mean = geometricMean(past.map(({ hours, plannedHours }) => hours.div(plannedHours).toNumber()));
  return { garments: past.length, ratio: new Decimal(mean).toDecimalPlaces(4) };
};
