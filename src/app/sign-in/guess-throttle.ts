import { Injectable } from '@nestjs/common';
import { Trouble } from '../../domain/kernel/errors.js';
import { Clock } from '../../storage/clock.js';
import { countInWords } from '../../web/words/counts.js';

const FREE_TRIES = 4;
const LONGEST = 15 * 60_000;
const MOST_REMEMBERED = 10_000;

/** Makes guessing slow: after four wrong tries each further one waits twice as long, up to a quarter of an hour. */
@Injectable()
export class GuessThrottle {
  private readonly wrong = new Map<string, { count: number; nextAt: number }>();

  constructor(private readonly clock: Clock) {}

  /**
   * Lets a guess through and counts it as wrong until it proves right: many sent at once would otherwise all pass before
   * the first is found wrong.
   *
   * @throws Trouble (429) while the guesser must wait
   */
  guess(...whos: string[]): void {
    const now = this.clock.ticks();
    const wait = Math.max(...whos.map((who) => (this.wrong.get(who)?.nextAt ?? 0) - now));
    if (wait > 0) {
      throw new Trouble(
        'too-many',
        'too-many-tries',
        `Too many wrong tries. Wait ${countInWords(Math.ceil(wait / 1000), 'second')}.`,
      );
    }
    for (const who of whos) {
      const count = (this.wrong.get(who)?.count ?? 0) + 1;
      const delay = count <= FREE_TRIES ? 0 : Math.min(LONGEST, 1000 * 2 ** (count - FREE_TRIES));
      this.wrong.delete(who);
      this.wrong.set(who, { count, nextAt: now + delay });
    }
    const oldest = this.wrong.size > MOST_REMEMBERED ? this.wrong.keys().next().value : undefined;
    if (oldest !== undefined) this.wrong.delete(oldest);
  }

  wasRight(...whos: string[]): void {
    for (const who of whos) this.wrong.delete(who);
  }
}
