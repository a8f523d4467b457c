import { Temporal } from 'temporal-polyfill';
import { Clock } from '../../storage/clock.js';

/** The machine's clock, set back while the demonstration's story is told, so that everything carries the hour of the story. */
export class StoryClock extends Clock {
  private back = 0;

  constructor(private readonly clock: Clock) {
    super();
  }

  now(): string {
    return Temporal.Instant.fromEpochMilliseconds(this.ticks()).toString({ smallestUnit: 'millisecond' });
  }

  ticks(): number {
    return this.clock.ticks() - this.back;
  }

  /** Sets it to an hour of the story, never ahead of the machine's. */
  standAt(date: string, time: string, zone: string): void {
    const at = Temporal.PlainDateTime.from(`${date}T${time}`).toZonedDateTime(zone).epochMilliseconds;
    this.back = Math.max(0, this.clock.ticks() - at);
  }

  /** The story is told. */
  returnToday(): void {
    this.back = 0;
  }
}
