import { type CalendarDate, isCalendarDate } from '../../kernel/calendar-date.js';

/** Day, month and year in figures: which comes first. */
export type DateOrder = 'day-first' | 'month-first';

const two = (text: string): string => text.padStart(2, '0');
const FIGURES = /^(\d{1,2})[-/. ](\d{1,2})[-/. ](\d{4}|\d{2})(?:[ T,].*)?$/;
const YEAR_FIRST = /^(\d{4})[-/.]?(\d{2})[-/.]?(\d{2})(?:[ T,].*)?$/;
const WORDS = /^(\d{1,2})[-/. ]+([a-z]{3,9})\.?[-/. ,]+(\d{4}|\d{2})(?:[ T,].*)?$/i;
const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

const real = (year: string, month: string, day: string): CalendarDate | undefined => {
  const date = `${year.length === 2 ? `20${year}` : year}-${two(month)}-${two(day)}`;
  return isCalendarDate(date) ? date : undefined;
};

/**
 * Whether the day or the month comes first in a column of dates, by what the dates themselves show. A date with points
 * between its figures begins with the day (common practice, no source).
 *
 * @returns undefined when every date could be read either way, as `03/04/2026` could, so that a person is asked
 * @see test/domain/papers/bank/bank.test.ts
 */
export const dateOrderIn = (column: readonly string[]): DateOrder | undefined => {
  let unsure = false;
  for (const text of column) {
    const [, first = '', second = ''] = FIGURES.exec(text.trim()) ?? [];
    if (first === '') continue;
    if (Number(first) > 12) return 'day-first';
    if (Number(second) > 12) return 'month-first';
    if (/^\d+\./.test(text.trim())) return 'day-first';
    if (first !== second) unsure = true;
  }
  return unsure ? undefined : 'day-first';
};

/**
 * Reads one date: `2026-03-02`, `20260302`, `02/03/2026`, `2.3.26`, `02 Mar 2026`; a time behind it is left.
 *
 * @returns undefined when it is no date of the calendar
 */
export const readBankDate = (text: string, order: DateOrder): CalendarDate | undefined => {
  const plain = text.trim();
  const [, year, month, day] = YEAR_FIRST.exec(plain) ?? [];
  if (year && month && day) return real(year, month, day);
  const [, first, second, last] = FIGURES.exec(plain) ?? [];
  if (first && second && last)
    return order === 'day-first' ? real(last, second, first) : real(last, first, second);
  const [, number, name, of] = WORDS.exec(plain) ?? [];
  const place = MONTHS.indexOf((name ?? '').slice(0, 3).toLowerCase()) + 1;
  return number && of && place > 0 ? real(of, String(place), number) : undefined;
};
