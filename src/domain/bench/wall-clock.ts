import { Temporal } from 'temporal-polyfill';
import type { CalendarDate, Instant } from '../kernel/calendar-date.js';

/**
 * The instant at which the clock on the wall shows a time. An hour that summer time skips is taken an hour later, of an
 * hour that comes twice the first.
 *
 * @param time `HH:MM`
 * @see test/domain/bench/sitting.test.ts
 */
export const instantAt = (on: CalendarDate, time: string, zone: string): Instant =>
  Temporal.PlainDate.from(on)
    .toZonedDateTime({ timeZone: zone, plainTime: Temporal.PlainTime.from(time) })
    .toInstant()
    .toString({ fractionalSecondDigits: 3 });

/** The instant so many minutes later. */
export const minutesLater = (at: Instant, minutes: number): Instant =>
  Temporal.Instant.from(at).add({ minutes }).toString({ fractionalSecondDigits: 3 });
