import type { CalendarDate } from '../kernel/calendar-date.js';

/** Anything that holds from a date on, until the next of its kind begins. */
export type Dated = { readonly from: CalendarDate };

/**
 * Which of several dated rates holds on a day: the latest that has begun. A change never alters what was before it.
 *
 * @param rates in any order; of two with the same date the later in the list wins
 * @param day calendar date
 * @returns the rate that holds, or undefined before the first
 * @see test/domain/rates/rates.test.ts
 */
export const rateOn = <Rate extends Dated>(rates: readonly Rate[], day: CalendarDate): Rate | undefined =>
  rates.reduce<Rate | undefined>(
    (found, rate) => (rate.from <= day && (!found || rate.from >= found.from) ? rate : found),
    undefined,
  );
