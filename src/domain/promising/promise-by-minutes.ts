import { addDays, type CalendarDate, daysBetween } from '../kernel/calendar-date.js';
import { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';

/** Monday is 1, Sunday is 7 (ISO 8601). */
export type Weekday = 1 | 2 | 3 | 4 | 5 | 6 | 7;

export type PromiseQuestion = {
  /** The first day that may be worked. */
  readonly from: CalendarDate;
  /** Work that comes first. */
  readonly backlogMinutes: Decimal;
  readonly weeklyMinutes: Decimal;
  /** The garment's minutes at each certainty, by its name. */
  readonly garmentMinutes: Readonly<Record<string, Decimal>>;
  readonly closedDays?: readonly CalendarDate[];
  /** Monday to Friday when left out. */
  readonly workingDays?: readonly Weekday[];
};

const MONDAY_TO_FRIDAY: readonly Weekday[] = [1, 2, 3, 4, 5];
/** A Thursday. */
const DAY_NOUGHT = '1970-01-01';
const THURSDAY = 4;
const FURTHEST = 36_525;

const weekdayOf = (day: number): number => ((((day + THURSDAY - 1) % 7) + 7) % 7) + 1;

const mustBePromisable = (question: PromiseQuestion, weekdays: ReadonlySet<number>): void => {
  if (question.weeklyMinutes.lte(0))
    throw Invalid.field('weeklyMinutes', 'A week must hold more than 0 minutes of work.');
  if (question.backlogMinutes.lt(0))
    throw Invalid.field('backlogMinutes', 'The work that comes first cannot be below 0.');
  if (weekdays.size === 0) throw Invalid.field('workingDays', 'Name at least one day of the week.');
  for (const [certainty, minutes] of Object.entries(question.garmentMinutes)) {
    if (minutes.lt(0))
      throw Invalid.field(`garmentMinutes.${certainty}`, 'A garment cannot take less than 0 minutes.');
  }
};

/**
 * When a garment can be promised at each certainty, by plain division: the weekly minutes are spread evenly over the
 * working days of the week (Monday to Friday unless told otherwise), closed days are skipped and nothing is made up for
 * them, `from` is the first day that may be worked, and the date is the day on which the last minute is worked.
 *
 * working days needed = ⌈(backlog + garment) ÷ (weekly ÷ working days of a week)⌉, at least one.
 *
 * @param question minutes not negative, weekly minutes above 0
 * @returns a date for each certainty, in the order given
 * @throws Invalid with the field that cannot be meant, or when the work would not be done within a hundred years
 * @see test/domain/promising/promise-by-minutes.test.ts
 */
export const promiseByMinutes = (question: PromiseQuestion): Record<string, CalendarDate> => {
  const weekdays = new Set<number>(question.workingDays ?? MONDAY_TO_FRIDAY);
  mustBePromisable(question, weekdays);
  const first = daysBetween(DAY_NOUGHT, question.from);
  const closed = new Set((question.closedDays ?? []).map((date) => daysBetween(DAY_NOUGHT, date)));

  const daysNeeded = (garment: Decimal): number => {
    const minutes = question.backlogMinutes.plus(garment).times(weekdays.size);
    return Decimal.max(1, minutes.div(question.weeklyMinutes).toDecimalPlaces(20).ceil()).toNumber();
  };
  const lastDay = (needed: number): number => {
    let left = needed;
    for (let day = first; day < first + FURTHEST; day += 1) {
      if (!weekdays.has(weekdayOf(day)) || closed.has(day)) continue;
      left -= 1;
      if (left === 0) return day;
    }
    throw Invalid.field(
      'weeklyMinutes',
      'At so few minutes a week the work would not be done within a hundred years.',
    );
  };
  return Object.fromEntries(
    Object.entries(question.garmentMinutes).map(([certainty, minutes]) => [
      certainty,
      addDays(DAY_NOUGHT, lastDay(daysNeeded(minutes))),
    ]),
  );
};
