import { Temporal } from 'temporal-polyfill';
import { type CalendarDate, daysBetween, type Instant } from '../kernel/calendar-date.js';
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

/**
 * Days from one held fitting to the next of the same commission: what a promise must leave between them.
 *
 * @param held fittings that were held, of any number of commissions
 * @returns the middle of all gaps in whole days (of an even number the lower), and how many there are; none without two
 *   fittings of one commission on different days
 * @see test/domain/fitting/fitting.test.ts
 */
export const usualGap = (
  held: readonly Pick<Fitting, 'commissionId' | 'on'>[],
): { readonly days: number; readonly gaps: number } | undefined => {
  const daysOf = new Map<string, Set<CalendarDate>>();
  for (const { commissionId, on } of held)
    daysOf.set(commissionId, (daysOf.get(commissionId) ?? new Set()).add(on));
  const gaps = [...daysOf.values()]
    .flatMap((days) => {
      const sorted = [...days].sort();
      return sorted.slice(1).map((day, place) => daysBetween(sorted[place] ?? day, day));
    })
    .sort((a, b) => a - b);
  const days = gaps[Math.floor((gaps.length - 1) / 2)];
  return days === undefined ? undefined : { days, gaps: gaps.length };
};
