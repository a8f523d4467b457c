import type { CalendarDate } from '../../../../domain/kernel/calendar-date.js';
import { numberSeries } from '../../../../domain/papers/numbering/number-series.js';
import { seriesBook } from '../../../../storage/books/series-book.js';
import type { Reading, Writing } from '../../../../storage/session.js';

/** The series in which quotes of a date are counted, and the number that comes next. */
export type NextNumber = { readonly key: string; readonly pattern: string; readonly number: string };

/** Foresees the next number without taking it. */
export const foreseeNumber = async (
  reading: Reading,
  pattern: string,
  date: CalendarDate,
): Promise<NextNumber> => {
  const series = numberSeries.parse(pattern);
  const key = `quote/${numberSeries.periodOf(series, date)}`;
  const last = await seriesBook.last(reading, key);
  return { key, pattern, number: numberSeries.format(series, last + 1, date) };
};

/** Only one server at a time counts in a series; on SQLite the queue of writes sees to it. */
export const lockSeries = async ({ manager }: Writing, key: string): Promise<void> => {
  if (manager.connection.options.type !== 'postgres') return;
  await manager.query('SELECT pg_advisory_xact_lock(hashtext($1))', [`series ${key}`]);
};
