import { In } from 'typeorm';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { ClosedDayRow } from '../../rows/beside/closed-day.row.js';
import { MovedPromiseRow } from '../../rows/beside/moved-promise.row.js';
import { keptIn, type Reading, type Writing } from '../../session.js';

/** Days the workroom is closed that were written down together. */
export type ClosedSpan = {
  readonly id: string;
  readonly from: CalendarDate;
  readonly to: CalendarDate;
  readonly words: string;
  /** In order; days that were closed before belong to their own span. */
  readonly days: readonly CalendarDate[];
};

/** A promise that moved with a span. */
export type MovedPromise = {
  readonly garmentId: string;
  readonly was: CalendarDate;
  readonly now: CalendarDate;
};

/** The book of closed days, and of the promises that moved with them. */
export const closedDayBook = {
  /** Every closed day since a day, in order. */
  async since(reading: Reading, from: CalendarDate): Promise<CalendarDate[]> {
    return (await rowsSince(reading, from)).map(({ on_day }) => on_day);
  },

  /** Spans of which a day is still to come, in order. */
  async spansSince(reading: Reading, from: CalendarDate): Promise<ClosedSpan[]> {
    const ids = [...new Set((await rowsSince(reading, from)).map(({ span_id }) => span_id))];
    return ids.length === 0 ? [] : spansOf(await reading.manager.findBy(ClosedDayRow, { span_id: In(ids) }));
  },

  /** @throws NotFound */
  async span(reading: Reading, id: string): Promise<ClosedSpan> {
    const [span] = spansOf(await reading.manager.findBy(ClosedDayRow, { span_id: id }));
    if (!span) throw new NotFound('closed days');
    return span;
  },

  /** The promises that moved with a span, in the order in which they were named. */
  async moved(reading: Reading, spanId: string): Promise<MovedPromise[]> {
    const rows = await reading.manager.find(MovedPromiseRow, {
      where: { span_id: spanId },
      order: { id: 'ASC' },
    });
    return rows.map(({ garment_id, was_on, now_on }) => ({
      garmentId: garment_id,
      was: was_on,
      now: now_on,
    }));
  },

  /** Closes those of the days that are not closed yet. @returns the id of their span, and the days; none where all were closed */
  async close(
    writing: Writing,
    days: readonly CalendarDate[],
    words: string,
  ): Promise<{ readonly id: string; readonly days: readonly CalendarDate[] }> {
    const kept = await writing.manager.findBy(ClosedDayRow, { on_day: In([...days]) });
    const closed = new Set(kept.map(({ on_day }) => on_day));
    const open = days.filter((day) => !closed.has(day));
    const id = writing.newId();
    for (const day of open)
      await writing.insert(ClosedDayRow, { id: writing.newId(), on_day: day, words, span_id: id });
    return { id, days: open };
  },

  async move(writing: Writing, spanId: string, moved: MovedPromise): Promise<void> {
    await writing.insert(MovedPromiseRow, {
      id: writing.newId(),
      span_id: spanId,
      garment_id: moved.garmentId,
      was_on: moved.was,
      now_on: moved.now,
    });
  },

  /** Opens the days of a span again; promises that moved stay where they are. @throws NotFound */
  async open(writing: Writing, spanId: string): Promise<ClosedSpan> {
    const span = await this.span(writing, spanId);
    for (const { id } of await writing.manager.findBy(ClosedDayRow, { span_id: spanId }))
      await writing.remove(ClosedDayRow, id);
    return span;
  },
};

const rowsSince = (reading: Reading, from: CalendarDate): Promise<ClosedDayRow[]> =>
  keptIn(reading, `closed days since ${from}`, () =>
    reading.manager
      .createQueryBuilder(ClosedDayRow, 'closed')
      .where('closed.on_day >= :from', { from })
      .orderBy('closed.on_day')
      .getMany(),
  );

const spansOf = (rows: readonly ClosedDayRow[]): ClosedSpan[] => {
  const spans = new Map<string, ClosedDayRow[]>();
  for (const row of [...rows].sort((a, b) => (a.on_day < b.on_day ? -1 : 1)))
    spans.set(row.span_id, [...(spans.get(row.span_id) ?? []), row]);
  return [...spans].map(([id, own]) => {
    const days = own.map(({ on_day }) => on_day);
    return { id, from: days[0] ?? '', to: days.at(-1) ?? '', words: own[0]?.words ?? '', days };
  });
};
