import { randomUUID } from 'node:crypto';
import type { Instant } from '../../../domain/kernel/calendar-date.js';
import type { SignedIn } from '../../../web/visit.js';

/** A button at the bench: a form of its own, kept on the phone while the network is away. */
export type Tap = {
  readonly action: string;
  /** Where the script sends it. */
  readonly url: string;
  readonly text: string;
  readonly note?: string;
  /** What the page says while it waits. */
  readonly says: string;
  readonly once: string;
  readonly values: Record<string, string>;
  /** Whose sign-in made it: another's taps are not sent under this one. */
  readonly who: string;
  /** The server's time when the page was drawn, against which the phone sets its own. */
  readonly now: Instant;
  readonly main?: boolean;
};

/** The taps of one page. */
export type Tapping = {
  start(text: string, says: string, values: Record<string, string>, more?: Partial<Tap>): Tap;
  stop(text: string, says: string, values: Record<string, string>, more?: Partial<Tap>): Tap;
};

/** Makes taps for who looks, on behalf of whom. */
export const tapping = (visit: SignedIn, now: Instant, personId?: string): Tapping => {
  const tap = (
    path: string,
    text: string,
    says: string,
    values: Record<string, string>,
    more: Partial<Tap>,
  ): Tap => ({
    action: `/bench/clock${path}`,
    url: `/api/bench/clock${path}`,
    text,
    says,
    once: randomUUID(),
    values: { ...values, ...(personId ? { person: personId } : {}) },
    who: visit.who.id,
    now,
    ...more,
  });
  return {
    start: (text, says, values, more = {}) => tap('', text, says, values, more),
    stop: (text, says, values, more = {}) => tap('/stop', text, says, values, more),
  };
};
