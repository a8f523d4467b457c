import { Temporal } from 'temporal-polyfill';
import {
  addDays,
  type CalendarDate,
  type Instant,
  isCalendarDate,
} from '../../domain/kernel/calendar-date.js';
import { foldTyped, quoted } from '../../domain/measuring/typed-text.js';
import { asked, nothingTyped, type Reading, refused, understood } from './reading.js';

/** What a date field must know. */
export type DateField = {
  readonly today: CalendarDate;
  readonly locale?: string;
  /** The day is still to come: without a year it is the next such day, not this year's. */
  readonly comes?: boolean;
};

const MONTHS = 'January February March April May June July August September October November December'.split(
  ' ',
);
const DAYS = 'Monday Tuesday Wednesday Thursday Friday Saturday Sunday'.split(' ');
/** A map, not an object: people may type “constructor” too. */
const NEAR: ReadonlyMap<string, number> = new Map([
  ['today', 0],
  ['yesterday', -1],
  ['tomorrow', 1],
]);
const HELP = 'Write it like 2 March 2026 or 2026-03-02.';

const monthOf = (word: string): number =>
  word.length < 3 ? 0 : MONTHS.findIndex((month) => month.toLowerCase().startsWith(word)) + 1;

const two = (figures: string | number): string => String(figures).padStart(2, '0');

const onCalendar = (typed: string, year: string, month: number, day: string): Reading<CalendarDate> => {
  const full = year.length === 2 ? `20${year}` : year;
  const date = `${full.padStart(4, '0')}-${two(month)}-${two(day)}`;
  if (!isCalendarDate(date)) return refused(`${quoted(typed)} is not on the calendar. ${HELP}`);
  return date >= '1900-01-01' && date <= '2199-12-31'
    ? understood(date)
    : refused(`${quoted(typed)} is too far away. ${HELP}`);
};

/**
 * Does the locale write the day before the month?
 *
 * @returns undefined where nothing is known, so that a person is asked
 */
export const isDayFirst = (locale: string | undefined): boolean | undefined => {
  if (locale === undefined) return undefined;
  try {
    const parts = new Intl.DateTimeFormat(locale).formatToParts(0).map(({ type }) => type);
    return parts.indexOf('day') < parts.indexOf('month');
  } catch {
    return undefined;
  }
};

const inFigures = (
  typed: string,
  a: string,
  b: string,
  year: string,
  field: DateField,
): Reading<CalendarDate> => {
  if (Number(a) > 12) return onCalendar(typed, year, Number(b), a);
  if (Number(b) > 12) return onCalendar(typed, year, Number(a), b);
  const dayFirst = a === b ? true : isDayFirst(field.locale);
  if (dayFirst !== undefined) return onCalendar(typed, year, Number(dayFirst ? b : a), dayFirst ? a : b);
  const both = [onCalendar(typed, year, Number(b), a), onCalendar(typed, year, Number(a), b)].flatMap(
    (reading) => (reading.kind === 'ok' ? [{ words: dateInWords(reading.value), typed: reading.value }] : []),
  );
  return asked(`${quoted(typed)}: ${both.map(({ words }) => words).join(' or ')}?`, both);
};

/**
 * Reads a date: `2026-03-02`, `2 March 2026`, `2 Mar`, `March 2, 2026`, `2/3/2026`, `2.3.26`, `yesterday`.
 *
 * A missing year is this year, or the next where the day is still to come; two figures are of this century; day and month in figures go by the locale and are asked about
 * where no locale says.
 *
 * @see test/web/words/dates.test.ts
 */
export const readDate = (typed: string, field: DateField): Reading<CalendarDate> => {
  const thisYear = Number(field.today.slice(0, 4));
  const read = readInYear(typed, field, String(thisYear));
  if (!field.comes || read.kind !== 'ok' || read.value >= field.today || /\d{4}/.test(foldTyped(typed)))
    return read;
  const next = readInYear(typed, field, String(thisYear + 1));
  return next.kind === 'ok' && next.value !== read.value ? next : read;
};

const readInYear = (typed: string, field: DateField, thisYear: string): Reading<CalendarDate> => {
  const text = foldTyped(typed).replaceAll(',', ' ').replace(/ +/g, ' ').trim();
  if (text === '') return nothingTyped;
  if (text.length > 40) return refused(`This is too long for a date. ${HELP}`);
  const near = NEAR.get(text);
  if (near !== undefined) return understood(addDays(field.today, near));
  const [, y, m, d] = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text) ?? [];
  if (y && m && d) return onCalendar(typed, y, Number(m), d);
  const [, a, b, year] = /^(\d{1,2})[-/.](\d{1,2})(?:[-/.](\d{4}|\d{2}))?\.?$/.exec(text) ?? [];
  if (a && b) return inFigures(typed, a, b, year ?? thisYear, field);
  const words =
    /^(?<day>\d{1,2})(?:st|nd|rd|th)?\.? ?(?<month>[a-z]+)\.?(?: (?<year>\d{4}|\d{2}))?$/.exec(text) ??
    /^(?<month>[a-z]+)\.? ?(?<day>\d{1,2})(?:st|nd|rd|th)?(?: (?<year>\d{4}))?$/.exec(text);
  const month = monthOf(words?.groups?.month ?? '');
  return month > 0
    ? onCalendar(typed, words?.groups?.year ?? thisYear, month, words?.groups?.day ?? '')
    : refused(`${quoted(typed)} is not a date. ${HELP}`);
};

/** A date in words: `2 March 2026`. */
export const dateInWords = (date: CalendarDate): string => {
  const [year = '', month = '', day = ''] = date.split('-');
  return `${Number(day)} ${MONTHS[Number(month) - 1] ?? ''} ${Number(year)}`;
};

/** A date without its year, for a row of days near each other: `2 March`. */
export const dayAndMonthInWords = (date: CalendarDate): string => dateInWords(date).replace(/ \d+$/, '');

/** A date with its weekday: `Monday 2 March 2026`. */
export const dayInWords = (date: CalendarDate): string =>
  `${DAYS[Temporal.PlainDate.from(date).dayOfWeek - 1] ?? ''} ${dateInWords(date)}`;

/** The time of an instant in a zone: `14:05`. */
export const timeInWords = (instant: Instant, zone: string): string => {
  const { hour, minute } = Temporal.Instant.from(instant).toZonedDateTimeISO(zone);
  return `${two(hour)}:${two(minute)}`;
};

/** An instant in a zone: `2 March 2026, 14:05`. */
export const instantInWords = (instant: Instant, zone: string): string => {
  const date = Temporal.Instant.from(instant).toZonedDateTimeISO(zone).toPlainDate().toString();
  return `${dateInWords(date)}, ${timeInWords(instant, zone)}`;
};
