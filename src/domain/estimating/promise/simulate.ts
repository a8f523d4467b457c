import type { CalendarDate } from '../../kernel/calendar-date.js';
import { Invalid } from '../../kernel/errors.js';
import { order, strataOf } from '../chance/draws.js';
import { normalChance } from '../chance/normal.js';
import { FURTHEST_DAYS, type WorkCalendar, workDays } from './work-days.js';

/** A pause in the work on a garment: after so much of what is left, so many days until its fitting. */
export interface FittingGap {
  /** Share of the minutes that are left, above 0 and below 1. */
  readonly after: number;
  /** What it waits where no day is agreed, or where the agreed day is past by the time the work has come so far. */
  readonly days: number;
  /** The agreed day of the fitting: the work goes on that day. */
  readonly on?: CalendarDate;
}

/** Work that is still to be done on one garment. */
export interface WorkAhead {
  readonly ref: string;
  /** Minutes left with chance q of taking no longer; rising in q. */
  readonly minutesAt: (q: number) => number;
  /** The share of the doubt that all garments have in common: what is not known about the workroom's own pace. */
  readonly inCommon: number;
  /** In the order in which they come. */
  readonly gaps: readonly FittingGap[];
}

/** When the garments of a backlog are done. */
export interface Simulated {
  /** The day on which a garment is done with chance q. @throws Invalid for a garment that was not among them */
  at(ref: string, q: number): CalendarDate;
  /** Chance that a garment is done on a day or before. */
  chanceBy(ref: string, on: CalendarDate): number;
}

const PLACES = 199;
/** How many workrooms are played through. */
export const RUNS = 1024;

const tableOf = (minutesAt: (q: number) => number): Float64Array =>
  Float64Array.from({ length: PLACES }, (_, i) => Math.max(0, minutesAt((i + 0.5) / PLACES)));

const readTable = (table: Float64Array, u: number): number => {
  const at = Math.min(PLACES - 1, Math.max(0, u * PLACES - 0.5));
  const low = Math.floor(at);
  const from = table[low]!;
  return from + (at - low) * (table[Math.min(PLACES - 1, low + 1)]! - from);
};

/**
 * Plays a backlog through many times over a calendar, garment after garment in the order they should leave: while one waits
 * for its fitting the next is worked on. Each time every garment takes another length; how the workroom's own pace turns out is
 * the same for all of them in one run.
 *
 * u = Φ(√c z₀ + √(1 − c) zᵢ), c the share in common (a one-factor normal copula); z from strata, shuffled by a fixed seed, so
 * the same question has the same answer for ever.
 *
 * @param works in the order in which they are worked on
 * @param calendar minutes for garments each weekday, closed days
 * @param runs how many times, up to 65,536
 * @throws Invalid when the week holds no minutes, or the work would not be done within twenty years
 * @see design 9-rulings.md, Promise; test/domain/estimating/promise.test.ts
 */
export const simulate = (works: readonly WorkAhead[], calendar: WorkCalendar, runs = RUNS): Simulated => {
  const days = workDays(calendar);
  const minutes = Float64Array.from({ length: FURTHEST_DAYS }, (_, day) => days.minutes(day));
  const tables = works.map(({ minutesAt }) => tableOf(minutesAt));
  const z = strataOf(runs, Number.POSITIVE_INFINITY);
  const common = order(runs, 1);
  const orders = works.map((_, index) => order(runs, (index % 500) + 2));
  const ends = works.map(() => new Int32Array(runs));
  const took = new Float64Array(works.length);
  const agreed = works.map(({ gaps }) => gaps.map(({ on }) => (on ? days.day(on) : -1)));
  for (let run = 0; run < runs; run += 1) {
    works.forEach(({ inCommon }, i) => {
      const c = Math.min(1, Math.max(0, inCommon));
      const mixed = Math.sqrt(c) * z[common[run]!]! + Math.sqrt(1 - c) * z[orders[i]![run]!]!;
      took[i] = readTable(tables[i]!, normalChance(mixed));
    });
    playThrough(works, agreed, took, minutes, (i, day) => {
      ends[i]![run] = day;
    });
  }
  for (const each of ends) each.sort();
  const places = new Map(works.map(({ ref }, index) => [ref, index]));
  const endsOf = (ref: string): Int32Array => {
    const found = ends[places.get(ref) ?? -1];
    if (!found) throw Invalid.field('ref', 'This garment is not among those that were worked out.');
    return found;
  };
  return {
    at: (ref, q) => {
      const own = endsOf(ref);
      const place = Math.min(runs - 1, Math.max(0, Math.ceil(q * runs) - 1));
      return days.date(own[place]!);
    },
    chanceBy: (ref, on) => {
      const last = days.day(on);
      return endsOf(ref).filter((day) => day <= last).length / runs;
    },
  };
};

/** One run: day by day, the first garment that does not wait is worked on. */
const playThrough = (
  works: readonly WorkAhead[],
  agreed: readonly (readonly number[])[],
  took: Float64Array,
  minutes: Float64Array,
  done: (index: number, day: number) => void,
): void => {
  const worked = new Float64Array(works.length);
  const passed = new Int32Array(works.length);
  const waitsUntil = new Int32Array(works.length);
  let open = works.map((_, index) => index);
  for (let day = 0; open.length > 0; day += 1) {
    if (day >= FURTHEST_DAYS)
      throw Invalid.field(
        'minutesOn',
        'At so few minutes a week the work would not be done within twenty years.',
      );
    let left = minutes[day]!;
    let ended = false;
    for (const i of open) {
      if (left <= 0) break;
      if (waitsUntil[i]! > day) continue;
      const whole = took[i]!;
      const gap = works[i]!.gaps[passed[i]!];
      const until = gap ? whole * gap.after : whole;
      const spent = Math.min(left, Math.max(0, until - worked[i]!));
      worked[i] = worked[i]! + spent;
      left -= spent;
      if (worked[i]! < until - 1e-9) continue;
      if (gap) {
        const on = agreed[i]![passed[i]!]!;
        waitsUntil[i] = on > day ? Math.min(on, FURTHEST_DAYS) : day + Math.max(1, gap.days);
        passed[i] = passed[i]! + 1;
      } else {
        done(i, day);
        ended = true;
        waitsUntil[i] = FURTHEST_DAYS + 1;
      }
    }
    if (ended) open = open.filter((i) => waitsUntil[i]! <= FURTHEST_DAYS);
  }
};

/** How a promise moves. Days later are positive. */
export interface Moved {
  readonly ref: string;
  readonly before: CalendarDate;
  readonly after: CalendarDate;
}

/**
 * Which promises move when the backlog or the calendar changes, at one degree of certainty.
 *
 * @returns those that move, in the order given
 */
export const movedPromises = (
  refs: readonly string[],
  before: Simulated,
  after: Simulated,
  q: number,
): Moved[] =>
  refs
    .map((ref) => ({ ref, before: before.at(ref, q), after: after.at(ref, q) }))
    .filter((one) => one.before !== one.after);
