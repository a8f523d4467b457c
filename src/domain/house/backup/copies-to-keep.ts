import { Temporal } from 'temporal-polyfill';
import { dateIn, type Instant } from '../../kernel/calendar-date.js';

/** A copy the round of the day made. */
export type DailyCopy = { readonly name: string; readonly madeAt: Instant };

/** How many days, weeks and months a copy is kept for. */
export type KeepingRule = { readonly days: number; readonly weeks: number; readonly months: number };

/** Seven days, four weeks, twelve months: 23 copies at the most, since one copy can stand for all three. */
export const KEEPING: KeepingRule = { days: 7, weeks: 4, months: 12 };

const weekOf = (day: string): string => {
  const date = Temporal.PlainDate.from(day);
  return date.subtract({ days: date.dayOfWeek - 1 }).toString();
};

/**
 * Which of the daily copies are kept: the newest copy of each of the last 7 days that have one, of the last 4 weeks that
 * have one (Monday to Sunday), and of the last 12 months that have one.
 *
 * Days without a copy are not counted, so a workroom that is closed for a year loses nothing by it; and nothing goes by age
 * against the present, so a clock that jumps takes no copy away.
 *
 * @param copies in any order
 * @param zone the time zone whose days are meant, e.g. `Europe/Dublin`
 * @param rule how many of each
 * @returns the names that are kept; every other name may go
 * @see common practice of three generations of copies, no source · test/domain/house/copies-to-keep.test.ts
 */
export const copiesToKeep = (
  copies: readonly DailyCopy[],
  zone: string,
  rule: KeepingRule = KEEPING,
): ReadonlySet<string> => {
  const newestFirst = copies
    .map(({ name, madeAt }) => ({ name, madeAt, day: dateIn(madeAt, zone) }))
    .toSorted((a, b) => b.madeAt.localeCompare(a.madeAt) || b.name.localeCompare(a.name));
  const newestOfEach = (spanOf: (day: string) => string, most: number): string[] => {
    const found = new Map<string, string>();
    for (const { name, day } of newestFirst) {
      const span = spanOf(day);
      if (!found.has(span)) found.set(span, name);
    }
    return [...found.values()].slice(0, most);
  };
  return new Set([
    ...newestOfEach((day) => day, rule.days),
    ...newestOfEach(weekOf, rule.weeks),
    ...newestOfEach((day) => day.slice(0, 7), rule.months),
  ]);
};
