import type { CalendarDate } from '../../kernel/calendar-date.js';
import { Conflict, Invalid, OutOfRange } from '../../kernel/errors.js';

/** A part of a pattern: words as they are, the year, or the counter with its least width. */
type Part =
  | { readonly kind: 'words'; readonly text: string }
  | { readonly kind: 'year'; readonly digits: 2 | 4 }
  | { readonly kind: 'counter'; readonly width: number };

/** A series of numbers as the studio wrote it, such as `Q-{year}-{000}`. */
export type NumberSeries = {
  readonly pattern: string;
  readonly parts: readonly Part[];
  /** Does the counter begin again at 1 with each year? */
  readonly restartsYearly: boolean;
};

/** Where a series stands: the last number given within its period (a year, or `all` when the pattern has none). */
export type SeriesState = { readonly period: string; readonly last: number };

const PATTERN_LIMIT = 40;
const LAST_NUMBER = 999_999_999;

const readPart = (inside: string, pattern: string): Part => {
  if (inside === 'year') return { kind: 'year', digits: 4 };
  if (inside === 'yy') return { kind: 'year', digits: 2 };
  if (/^0{1,9}$/.test(inside)) return { kind: 'counter', width: inside.length };
  throw Invalid.field(
    'pattern',
    `“${pattern}” holds “{${inside.slice(0, 20)}}”, which means nothing here. Use {year}, {yy} and one counter such as {000}.`,
  );
};

/**
 * Reads a pattern: `{year}` or `{yy}` for the year of the paper's date, one run of noughts in braces for the counter.
 *
 * @param pattern at most 40 characters: letters, digits, blanks and - / . _ # around the braces
 * @returns the series; with a year in it the counter restarts each year
 * @throws Invalid naming the pattern when it has no counter, two of them, an unknown word in braces or other signs
 * @see VAT Directive 2006/112/EC art. 226(2): a sequential number, one or more series, uniquely identifying;
 * test/domain/papers/number-series.test.ts
 */
const parse = (pattern: string): NumberSeries => {
  const refuse = (why: string): never => {
    throw Invalid.field('pattern', `“${pattern.slice(0, PATTERN_LIMIT)}” ${why}`);
  };
  if (pattern.length > PATTERN_LIMIT) refuse(`is longer than ${PATTERN_LIMIT} characters.`);
  if (pattern !== pattern.trim()) refuse('begins or ends with a blank.');
  const parts: Part[] = [];
  for (const piece of pattern.split(/(\{[^{}]*\})/).filter((text) => text !== '')) {
    if (piece.startsWith('{') && piece.endsWith('}')) parts.push(readPart(piece.slice(1, -1), pattern));
    else if (/^[\p{L}\p{N} \-/._#]+$/u.test(piece)) parts.push({ kind: 'words', text: piece });
    else refuse('holds a sign that does not belong in a number. Use letters, digits and - / . _ #.');
  }
  const counters = parts.filter((part) => part.kind === 'counter').length;
  if (counters === 0)
    refuse('has no counter. Add one, for example {000}, or every paper gets the same number.');
  if (counters > 1) refuse('has two counters. Leave one of them.');
  parts.forEach((part, index) => {
    const next = parts[index + 1];
    if (part.kind !== 'words' && next && next.kind !== 'words')
      refuse(
        'runs the year into the counter, so that two papers could share a number. Put a sign such as - between.',
      );
    const touches = (text: string | undefined): boolean => text !== undefined && /\p{N}/u.test(text);
    if (part.kind === 'counter' && next?.kind === 'words' && touches(next.text[0]))
      refuse('has a digit right behind the counter, so that two papers could share a number.');
    const before = parts[index - 1];
    if (part.kind === 'counter' && before?.kind === 'words' && touches(before.text.at(-1)))
      refuse('has a digit right before the counter, so that two papers could share a number.');
  });
  return { pattern, parts, restartsYearly: parts.some((part) => part.kind === 'year') };
};

/** The period a date counts in: its year when the pattern has one, else `all`. */
const periodOf = (series: NumberSeries, date: CalendarDate): string =>
  series.restartsYearly ? date.slice(0, 4) : 'all';

/**
 * The number as it is printed: `Q-2026-031`. A counter that outgrows its noughts simply gets wider.
 *
 * @param n 1 to 999,999,999
 * @param date the paper's own date
 * @throws OutOfRange when n is not such a whole number
 */
const format = (series: NumberSeries, n: number, date: CalendarDate): string => {
  if (!Number.isSafeInteger(n) || n < 1 || n > LAST_NUMBER)
    throw new OutOfRange('A number in a series is a whole number from 1 on.');
  return series.parts
    .map((part) => {
      if (part.kind === 'words') return part.text;
      return part.kind === 'year' ? date.slice(4 - part.digits, 4) : String(n).padStart(part.width, '0');
    })
    .join('');
};

/**
 * The next number of a series and where the series then stands: last + 1, or 1 in a new period.
 *
 * @param last where the series stands; nothing when no number was ever given
 * @param date the paper's own date
 * @throws Conflict when the series has already gone on to a later year
 */
const next = (
  series: NumberSeries,
  last: SeriesState | undefined,
  date: CalendarDate,
): { readonly number: string; readonly state: SeriesState } => {
  const period = periodOf(series, date);
  if (last && series.restartsYearly && /^\d{4}$/.test(last.period) && last.period > period)
    throw new Conflict(
      `The series has gone on to ${last.period}; a paper cannot be numbered back into ${period}.`,
      'series-moved-on',
    );
  const n = last && last.period === period ? last.last + 1 : 1;
  return { number: format(series, n, date), state: { period, last: n } };
};

/** Patterns of paper numbers and the unbroken counting through them. */
export const numberSeries = { parse, periodOf, format, next } as const;
