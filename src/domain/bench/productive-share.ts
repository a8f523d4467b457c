import { Temporal } from 'temporal-polyfill';
import type { CalendarDate } from '../kernel/calendar-date.js';
import { Decimal } from '../kernel/decimal.js';
import type { Minutes } from '../kernel/minutes.js';

/** Minutes of one day, in garments and in all. */
export type WorkedDay = { readonly on: CalendarDate; readonly inGarments: Minutes; readonly inAll: Minutes };

/** The share of the time worked that went into garments, and what it rests on. */
export type ProductiveShare = {
  /** From 0 to 1, unrounded. */
  readonly share: Decimal;
  readonly inGarments: Minutes;
  readonly inAll: Minutes;
  /** Weeks (Monday to Sunday, ISO 8601) in which any time was written down. */
  readonly weeks: number;
};

/**
 * The productive share as it was: minutes in garments / all minutes.
 *
 * @returns undefined while no minute was written down
 * @see test/domain/bench/splitting.test.ts
 */
export const productiveShare = (days: readonly WorkedDay[]): ProductiveShare | undefined => {
  const sum = (of: (day: WorkedDay) => Minutes): Minutes => days.reduce((total, day) => total + of(day), 0);
  const [inGarments, inAll] = [sum((day) => day.inGarments), sum((day) => day.inAll)];
  if (inAll <= 0) return undefined;
  const weeks = new Set(
    days
      .filter((day) => day.inAll > 0)
      .map(({ on }) => {
        const { yearOfWeek, weekOfYear } = Temporal.PlainDate.from(on);
        return `${yearOfWeek}-${weekOfYear}`;
      }),
  );
  return { share: new Decimal(inGarments).div(inAll), inGarments, inAll, weeks: weeks.size };
};
