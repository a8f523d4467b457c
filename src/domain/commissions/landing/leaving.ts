import { type CalendarDate, daysBetween } from '../../kernel/calendar-date.js';
import type { Minutes } from '../../kernel/minutes.js';
import type { RateCard } from '../../rates/rate-card.js';

/** Will it be ready by its day? `no-day`: nobody named one. `no-hours`: nobody has said how many hours a week are worked. */
export type Readiness = 'comfortable' | 'tight' | 'late' | 'no-day' | 'no-hours';

/** The words for it. */
export const READINESS_WORDS: Readonly<Record<Readiness, string>> = {
  comfortable: 'comfortable',
  tight: 'tight',
  late: 'late',
  'no-day': 'no day named',
  'no-hours': 'no weekly hours known',
};

/** A garment in the order in which they should leave. */
export type LeavingWork = {
  readonly dueOn: CalendarDate | undefined;
  /** Minutes left at even chance and at 4 in 5. */
  readonly even: Minutes;
  readonly fourInFive: Minutes;
};

/** How ready a garment will be, and why. */
export type Leaving = {
  readonly readiness: Readiness;
  /** Minutes left at 4 in 5 of this garment and of all that leave before it. */
  readonly needed: Minutes;
  /** Minutes the workroom has until the day. */
  readonly there: Minutes;
};

/**
 * Minutes the workroom puts into garments in a week: Σ hours a week × productive share, of everybody whose year is known.
 *
 * @returns minutes, unrounded; 0 where nobody's hours are known
 */
export const weeklyMinutes = ({ workings }: Pick<RateCard, 'workings'>): number =>
  workings.people.reduce(
    (sum, { year }) => (year ? sum + Number(year.hoursAWeek.times(year.productiveShare).times(60)) : sum),
    0,
  );

/**
 * Which garments will be ready in time, taken in the order in which they should leave: what leaves before must be made before.
 *
 * Late: the day is past, or what is left at even chance, of it and of all before it, is more than the hours until then. Tight: at
 * even chance it fits, at 4 in 5 it does not, or less than a tenth of the hours is to spare. Comfortable: the rest. The thresholds
 * are ours, judgement. Hours are taken evenly over the seven days of the week, today counted and the day it leaves only where it is today; closed
 * days and fittings are not looked at here.
 *
 * @param works in leaving order; those without a day come last and wait for nobody
 * @param weekly minutes a week
 * @see test/domain/commissions/landing/leaving.test.ts
 */
export const leavingOrder = (
  works: readonly LeavingWork[],
  weekly: number,
  today: CalendarDate,
): Leaving[] => {
  let [even, fourInFive] = [0, 0];
  return works.map((work) => {
    even += work.even;
    fourInFive += work.fourInFive;
    const days = work.dueOn === undefined ? 0 : Math.max(1, daysBetween(today, work.dueOn));
    const there = (weekly / 7) * days;
    return {
      readiness: readinessOf(work, { even, fourInFive, there, weekly, today }),
      needed: fourInFive,
      there,
    };
  });
};

/** The share of the hours that should be to spare. */
const TO_SPARE = 0.1;

const readinessOf = (
  { dueOn, even: own }: LeavingWork,
  sums: { even: number; fourInFive: number; there: number; weekly: number; today: CalendarDate },
): Readiness => {
  if (dueOn === undefined) return 'no-day';
  const { even, fourInFive, there, weekly, today } = sums;
  if (dueOn < today) return 'late';
  if (own === 0) return 'comfortable';
  if (weekly <= 0) return 'no-hours';
  if (even > there) return 'late';
  return fourInFive > there * (1 - TO_SPARE) ? 'tight' : 'comfortable';
};
