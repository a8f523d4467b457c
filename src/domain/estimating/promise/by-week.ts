import { addDays, type CalendarDate } from '../../kernel/calendar-date.js';
import { weekdayOf } from './weekly-hours.js';
import { type WorkCalendar, workDays } from './work-days.js';

/** One week, Monday to Sunday (ISO 8601); the first begins today. */
export type PromisedWeek = {
  readonly from: CalendarDate;
  readonly to: CalendarDate;
  /** Minutes left of the garments promised for a day of it. */
  readonly promised: number;
  /** Minutes the workroom has in it. */
  readonly there: number;
  /** Minutes there are until its end less minutes promised until its end; below nought where too much is promised. */
  readonly spare: number;
};

/**
 * Hours promised against hours there are, week by week. What is overdue is promised for the first week.
 *
 * @param works minutes left of each garment that is promised, and its day
 * @param weeks how many weeks
 * @returns minutes, unrounded, and what is promised for later
 * @throws Invalid when the calendar holds no minutes
 * @see test/domain/estimating/weekly-hours.test.ts
 */
export const promisedByWeek = (
  works: readonly { readonly dueOn: CalendarDate; readonly minutes: number }[],
  calendar: WorkCalendar,
  weeks: number,
): { readonly weeks: PromisedWeek[]; readonly later: number } => {
  const days = workDays(calendar);
  const firstMonday = addDays(calendar.from, -weekdayOf(calendar.from));
  let spare = 0;
  const told = Array.from({ length: weeks }, (_, place): PromisedWeek => {
    const monday = addDays(firstMonday, 7 * place);
    const from = place === 0 ? calendar.from : monday;
    const to = addDays(monday, 6);
    const promised = works
      .filter(({ dueOn }) => dueOn <= to && (place === 0 || dueOn >= from))
      .reduce((sum, { minutes }) => sum + minutes, 0);
    let there = 0;
    for (let day = days.day(from); day <= days.day(to); day += 1) there += days.minutes(day);
    spare += there - promised;
    return { from, to, promised, there, spare };
  });
  const end = told.at(-1)?.to ?? calendar.from;
  const later = works.filter(({ dueOn }) => dueOn > end).reduce((sum, { minutes }) => sum + minutes, 0);
  return { weeks: told, later };
};
