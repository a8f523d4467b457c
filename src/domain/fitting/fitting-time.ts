import { Temporal } from 'temporal-polyfill';
import type { Instant } from '../kernel/calendar-date.js';
import type { Fitting } from './fitting.js';

type When = Pick<Fitting, 'on' | 'at' | 'minutes'>;

/**
 * From when to when a fitting lasts. A time that a clock change leaves out is read an hour later; one that it brings
 * twice is the first of the two.
 *
 * @param zone IANA time zone of the studio
 * @see RFC 5545 (IETF, 2009) section 3.3.5, local times in a gap or given twice; test/domain/fitting/fitting.test.ts
 */
export const instantsOf = ({ on, at, minutes }: When, zone: string): { start: Instant; end: Instant } => {
  const start = Temporal.PlainDateTime.from(`${on}T${at}`).toZonedDateTime(zone, {
    disambiguation: 'compatible',
  });
  return { start: start.toInstant().toString(), end: start.add({ minutes }).toInstant().toString() };
};

/** Do two fittings take the same time? Those that only touch do not. */
export const overlaps = (one: When, other: When, zone: string): boolean => {
  const [a, b] = [instantsOf(one, zone), instantsOf(other, zone)];
  return Date.parse(a.start) < Date.parse(b.end) && Date.parse(b.start) < Date.parse(a.end);
};
