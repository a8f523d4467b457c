import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { numberSeries } from '../../domain/papers/numbering/number-series.js';
import { seriesBook } from '../books/series-book.js';
import type { Reading, Writing } from '../session.js';

/** A kind of paper with a series of its own. */
export type SeriesName = 'quote' | 'invoice' | 'credit-note' | 'receipt';

/** The series in which papers of a date are counted, and the number that comes next. */
export type NextNumber = {
  readonly key: string;
  readonly pattern: string;
  readonly number: string;
  /** Did this number go out already? Then the series' pattern was changed to one that meets an earlier one. */
  readonly isTaken: boolean;
};

/**
 * Foresees the next number without taking it.
 *
 * Where the series stands and whether its next number went out are two looks. Between them another paper may be issued
 * under that very number, which would then seem to have been given before; so the series is looked at again.
 *
 * @param ahead how many numbers further on, for several papers issued together
 * @param wentOut did a paper go out under this number?
 */
export const foreseeNumber = async (
  reading: Reading,
  series: { readonly name: SeriesName; readonly pattern: string; readonly ahead?: number },
  date: CalendarDate,
  wentOut: (number: string) => Promise<boolean>,
): Promise<NextNumber> => {
  const { name, pattern, ahead = 0 } = series;
  const parsed = numberSeries.parse(pattern);
  const key = `${name}/${numberSeries.periodOf(parsed, date)}`;
  for (let last = await seriesBook.last(reading, key); ; ) {
    const number = numberSeries.format(parsed, last + 1 + ahead, date);
    const isTaken = await wentOut(number);
    const now = isTaken ? await seriesBook.last(reading, key) : last;
    if (now === last) return { key, pattern, number, isTaken };
    last = now;
  }
};

/** Only one server at a time counts in a series; on SQLite the queue of writes sees to it. */
export const lockSeries = async ({ manager }: Writing, key: string): Promise<void> => {
  if (manager.connection.options.type !== 'postgres') return;
  await manager.query('SELECT pg_advisory_xact_lock(hashtext($1))', [`series ${key}`]);
};
