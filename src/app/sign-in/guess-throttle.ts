import { Injectable } from '@nestjs/common';
import { Trouble } from '../../domain/kernel/errors.js';
import { Clock } from '../../storage/clock.js';
import { countInWords } from '../../web/words/counts.js';

const FREE_TRIES = 4;
const LONGEST = 15 * 60_000;
const MOST_REMEMBERED = 10_000;
const THIS_COMPUTER = /^from (::1|(::ffff:)?127(\.\d{1,3}){3})$/;

/** Makes guessing slow: after four wrong tries each further one waits twice as long, up to a quarter of an hour. */
@Injectable()
export class GuessThrottle {
  private readonly wrong = new Map<string, { count: number; nextAt: number }>();
  private readonly known = new Set<string>();

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

  /** Who came in from there once is slowed by that address alone: guesses from elsewhere cannot lock them out. */
  know(whos: readonly string[]): void {
    this.known.add(whos.join(' '));
    const oldest = this.known.size > MOST_REMEMBERED ? this.known.values().next().value : undefined;
    if (oldest !== undefined) this.known.delete(oldest);
  }

  /** Did they come in from there since the start, or do they sit at this computer itself? */
  isKnown(whos: readonly string[]): boolean {
    return THIS_COMPUTER.test(whos[0] ?? '') || this.known.has(whos.join(' '));
  }

  wasRight(...whos: string[]): void {
    for (const who of whos) this.wrong.delete(who);
  }
}
