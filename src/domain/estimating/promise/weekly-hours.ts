import { addDays, type CalendarDate, daysBetween } from '../../kernel/calendar-date.js';
import type { Minutes } from '../../kernel/minutes.js';
import { A_MONDAY } from './work-days.js';

/** So many weeks are looked back on. */
export const WEEKS_BACK = 13;
/** So many weeks the hours on the rate card weigh. */
export const WEIGHT_OF_CARD = 4;
/** The days over which the card’s week is spread, since it names none: Monday to Friday. */
const WORKING_DAYS = 5;

/** The place of a day in its week: 0 is Monday. */
export const weekdayOf = (date: CalendarDate): number => ((daysBetween(A_MONDAY, date) % 7) + 7) % 7;

/** What the workroom puts into garments in a week, and what that rests on. */
export type WeeklyHours = {
  /** Minutes on Monday to Sunday, unrounded. */
  readonly minutesOn: readonly number[];
  /** Weeks of the bench it rests on, in sevenths; 0 where only the card speaks. */
  readonly weeks: number;
  /** Minutes a week by the rate card; 0 where it says none. */
  readonly byCard: number;
};

/**
 * The minutes that go into garments on each weekday: what the bench has seen on such days, drawn to the rate card.
 *
 * minutes on weekday d = (4 · card_d + Σ minutes worked on such days) ÷ (4 + how many such days were open), with card_d a fifth of
 * the card's week on Monday to Friday. Four weeks of weight, thirteen weeks back and the five days are ours, judgement. Looked at are
 * the days before today, from the first that was worked; days the workroom was closed on count only where somebody worked all the same.
 * The weeks off in the card's year are not taken from it: they stand in the calendar as closed days.
 *
 * @param input.today the day from which is promised; not looked at itself
 * @param input.worked minutes on garments by day, in any order; reversals below nought among them
 * @param input.closedDays days on which the workroom was closed
 * @param input.byCard minutes a week by the rate card, 0 where it says none
 * @returns minutes, unrounded; all 0 where neither bench nor card knows any
 * @see design 9-rulings.md, Promise; test/domain/estimating/weekly-hours.test.ts
 */
export const weeklyHours = (input: {
  readonly today: CalendarDate;
  readonly worked: readonly { readonly on: CalendarDate; readonly inGarments: Minutes }[];
  readonly closedDays: readonly CalendarDate[];
  readonly byCard: number;
}): WeeklyHours => {
  const { today, byCard } = input;
  const first = addDays(today, -7 * WEEKS_BACK);
  const minutes = new Map<CalendarDate, number>();
  for (const { on, inGarments } of input.worked)
    if (on >= first && on < today) minutes.set(on, (minutes.get(on) ?? 0) + inGarments);
  const days = [...minutes].filter(([, sum]) => sum > 0);
  const from = days.map(([on]) => on).sort()[0];
  const closed = new Set(input.closedDays);
  const sums = Array.from({ length: 7 }, () => 0);
  const open = Array.from({ length: 7 }, () => 0);
  const length = from === undefined ? 0 : daysBetween(from, today);
  for (let day = 0; day < length; day += 1) {
    const on = addDays(from ?? today, day);
    const own = Math.max(0, minutes.get(on) ?? 0);
    if (own === 0 && closed.has(on)) continue;
    const weekday = weekdayOf(on);
    sums[weekday] = (sums[weekday] ?? 0) + own;
    open[weekday] = (open[weekday] ?? 0) + 1;
  }
  const weight = byCard > 0 ? WEIGHT_OF_CARD : 0;
  return {
    minutesOn: sums.map((sum, weekday) => {
      const card = weekday < WORKING_DAYS ? byCard / WORKING_DAYS : 0;
      const over = weight + (open[weekday] ?? 0);
      return over > 0 ? (weight * card + sum) / over : 0;
    }),
    weeks: length / 7,
    byCard,
  };
};
