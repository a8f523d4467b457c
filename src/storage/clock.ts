import { type CalendarDate, dateIn, type Instant } from '../domain/kernel/calendar-date.js';

/** Tells the time. The one file that may ask the machine; tests use a clock that stands still. */
export abstract class Clock {
  /** The present instant, UTC. */
  abstract now(): Instant;
  /** Milliseconds since the start of 1970, for deadlines and identifiers. */
  abstract ticks(): number;
}

export class MachineClock extends Clock {
  now(): Instant {
    return new Date().toISOString();
  }

  ticks(): number {
    return Date.now();
  }
}

/** Today in the studio's zone. */
export const todayIn = (clock: Clock, zone: string): CalendarDate => dateIn(clock.now(), zone);
