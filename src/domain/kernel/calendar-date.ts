import { Temporal } from 'temporal-polyfill';
import { Invalid } from './errors.js';

/** A date on a calendar without a zone, written `YYYY-MM-DD`: due dates, dates on papers, delivery dates. */
export type CalendarDate = string;

/** An instant in UTC, RFC 3339 with milliseconds: `2026-11-25T12:43:00.000Z`. */
export type Instant = string;

/** Is this a date that exists? `2026-02-30` is not. */
export const isCalendarDate = (text: string): boolean => {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  try {
    Temporal.PlainDate.from(text, { overflow: 'reject' });
    return true;
  } catch {
    return false;
  }
};

/** @throws Invalid when the date does not exist */
export const calendarDate = (text: string): CalendarDate => {
  if (!isCalendarDate(text))
    throw new Invalid(`“${text.slice(0, 40)}” is not a date. Write it like 2026-03-02.`);
  return text;
};

/** The date so many days later (or earlier, when negative). */
export const addDays = (date: CalendarDate, days: number): CalendarDate =>
  Temporal.PlainDate.from(date).add({ days }).toString();

/** Whole days from one date to another; negative when `to` is earlier. */
export const daysBetween = (from: CalendarDate, to: CalendarDate): number =>
  Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: 'day' }).days;

/** The calendar date of an instant in a time zone such as `Europe/Dublin`. */
export const dateIn = (instant: Instant, zone: string): CalendarDate =>
  Temporal.Instant.from(instant).toZonedDateTimeISO(zone).toPlainDate().toString();

/** Whole years from one date to another, as an age is counted. */
export const yearsBetween = (from: CalendarDate, to: CalendarDate): number =>
  Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: 'year' }).years;
