import { Clock } from '../../src/storage/clock.js';

/** A clock that stands still until it is moved. */
export class StillClock extends Clock {
  constructor(private at = Date.parse('2026-03-02T09:00:00.000Z')) {
    super();
  }

  now(): string {
    return new Date(this.at).toISOString();
  }

  ticks(): number {
    return this.at;
  }

  /** Moves the hands on. */
  forward(minutes: number): void {
    this.at += minutes * 60_000;
  }
}
