import { addDays, type CalendarDate, daysBetween } from '../../kernel/calendar-date.js';
import { Invalid } from '../../kernel/errors.js';

/** When the workroom works: minutes for garments on each weekday, Monday first, and the days it is closed. */
export interface WorkCalendar {
  /** The first day that may be worked. */
  readonly from: CalendarDate;
  /** Minutes on Monday to Sunday, not negative. */
  readonly minutesOn: readonly number[];
  readonly closedDays: readonly CalendarDate[];
}

/** A Monday. */
export const A_MONDAY = '1970-01-05';
/** Twenty people round the clock: more is a slip of the pen. */
const MOST_MINUTES = 20 * 1440;
/** Twenty years: a promise beyond is none. */
export const FURTHEST_DAYS = 7305;

/** Day by day from the first: the minutes there are, and the date each stands for. */
export interface WorkDays {
  minutes(day: number): number;
  date(day: number): CalendarDate;
  /** The number of a date; below 0 before the first day. */
  day(date: CalendarDate): number;
}

/**
 * The days of a calendar, counted from its first.
 *
 * @throws Invalid when no weekday holds any minutes, or one holds more than twenty people can work
 */
export const workDays = ({ from, minutesOn, closedDays }: WorkCalendar): WorkDays => {
  if (minutesOn.length !== 7 || minutesOn.some((one) => !(one >= 0 && one <= MOST_MINUTES)))
    throw Invalid.field('minutesOn', 'Give the minutes of each of the seven weekdays, 0 to 28,800.');
  if (minutesOn.every((one) => one === 0))
    throw Invalid.field('minutesOn', 'A week must hold more than 0 minutes of work.');
  const first = ((daysBetween(A_MONDAY, from) % 7) + 7) % 7;
  const closed = new Set(closedDays.map((date) => daysBetween(from, date)));
  return {
    minutes: (day) => (closed.has(day) ? 0 : (minutesOn[(first + day) % 7] ?? 0)),
    date: (day) => addDays(from, day),
    day: (date) => daysBetween(from, date),
  };
};
