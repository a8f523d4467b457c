import type { Cause } from '../costing/causes.js';
import type { Instant } from '../kernel/calendar-date.js';
import type { Minutes } from '../kernel/minutes.js';
import type { WorkedOn } from './bench-entry.js';

/** A clock that runs for one person. There is at most one for each. */
export type RunningClock = WorkedOn & {
  readonly personId: string;
  readonly version: number;
  readonly garmentName: string;
  readonly begunAt: Instant;
  readonly cause: Cause | undefined;
  readonly extraId: string | undefined;
};

/**
 * Whole minutes between two instants, rounded half up once; the clock on the wall (midnight, summer time) does not matter.
 *
 * @returns whole minutes; 0 where the end lies before the beginning
 * @see test/domain/bench/worked.test.ts
 */
export const minutesBetween = (begunAt: Instant, endedAt: Instant): Minutes =>
  Math.max(0, Math.floor((Date.parse(endedAt) - Date.parse(begunAt) + 30_000) / 60_000));
