import { dateIn, type Instant } from '../kernel/calendar-date.js';
import { Conflict, Invalid } from '../kernel/errors.js';
import type { Minutes } from '../kernel/minutes.js';
import type { BenchEntry } from './bench-entry.js';
import { minutesBetween, type RunningClock } from './running-clock.js';
import { instantAt, minutesLater } from './wall-clock.js';
import { standingEntries } from './worked.js';

type Span = { readonly begunAt: Instant; readonly endedAt: Instant };

/**
 * The sittings of one person that a further one would overlap: both ran for at least a minute at once. It is asked about,
 * not refused: two hands may well hold two needles.
 *
 * @param entries of one person, reversals included; those without a beginning and an end cannot overlap
 * @see test/domain/bench/sitting.test.ts
 */
export const overlapped = (entries: readonly BenchEntry[], { begunAt, endedAt }: Span): BenchEntry[] =>
  standingEntries(entries).filter((one) => {
    if (!one.begunAt || !one.endedAt) return false;
    const from = one.begunAt > begunAt ? one.begunAt : begunAt;
    const to = one.endedAt < endedAt ? one.endedAt : endedAt;
    return from < to && minutesBetween(from, to) > 0;
  });

/** Longest a sitting may run before it is asked about, where nobody has done such work yet. */
export const LONG_FIRST_SITTING: Minutes = 4 * 60;
/** Below this nothing is asked, however short the longest sitting was. */
export const NEVER_ASKED: Minutes = 60;

/** Why a clock looks forgotten. */
export type LeftRunning = 'over-midnight' | 'longer-than-ever' | 'long-for-a-first';

/**
 * Does a clock look as if it was left running? Over midnight always; else longer than the longest sitting ever on such
 * work, and longer than an hour; without history longer than four hours.
 *
 * @param longest minutes of the longest sitting on such work; 0 where there was none
 * @returns why; undefined where nothing is odd
 * @see test/domain/bench/sitting.test.ts
 */
export const leftRunning = (
  { begunAt, endedAt }: Span,
  longest: Minutes,
  zone: string,
): LeftRunning | undefined => {
  if (dateIn(begunAt, zone) !== dateIn(endedAt, zone) && minutesBetween(begunAt, endedAt) > 0)
    return 'over-midnight';
  const ran = minutesBetween(begunAt, endedAt);
  if (longest === 0) return ran > LONG_FIRST_SITTING ? 'long-for-a-first' : undefined;
  return ran > Math.max(longest, NEVER_ASKED) ? 'longer-than-ever' : undefined;
};

/**
 * What such a sitting usually takes: the middle of past sittings (of an even number the shorter of the two in the middle),
 * or what the plan says where there are none.
 *
 * @returns whole minutes; undefined where nothing is known
 */
export const usualSitting = (past: readonly Minutes[], planned: Minutes): Minutes | undefined => {
  const sorted = [...past].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)] ?? (planned > 0 ? planned : undefined);
};

/** A quick answer to "when did it stop?". */
export type StoppedAnswer = { readonly is: 'now' | 'usual' | 'evening'; readonly at: Instant };

/** The hour at which a workroom closes: common practice, no source. */
const EVENING = '18:00';

/**
 * The quick answers to "when did it stop?": as it was recorded, at the usual length, at six that evening; only those that
 * lie within the sitting.
 *
 * @param usual minutes, where they are known
 */
export const stoppedAnswers = (
  { begunAt, endedAt }: Span,
  usual: Minutes | undefined,
  zone: string,
): StoppedAnswer[] => {
  const evening = instantAt(dateIn(begunAt, zone), EVENING, zone);
  const answers: StoppedAnswer[] = [
    { is: 'now', at: endedAt },
    ...(usual ? [{ is: 'usual', at: minutesLater(begunAt, usual) } as const] : []),
    { is: 'evening', at: evening },
  ];
  return answers.filter(({ is, at }) => is === 'now' || (at > begunAt && at < endedAt));
};

/** Oldest tap that is still taken: a week. */
const OLDEST_TAP: Minutes = 7 * 24 * 60;
/** Two clocks seldom agree to the second. */
const A_MOMENT: Minutes = 1;

/**
 * When a tap was made: now, or the instant a phone kept while the network was away.
 *
 * @param at as the phone says it; none for now
 * @returns an instant that is not later than now
 * @throws Invalid when it is no instant, lies in the future, or more than seven days back
 */
export const tappedAt = (at: Instant | undefined, now: Instant): Instant => {
  if (at === undefined) return now;
  if (at > now) {
    if (at <= minutesLater(now, A_MOMENT)) return now;
    throw Invalid.field('at', 'This lies in the future. The clock of the phone may be wrong.');
  }
  if (minutesBetween(at, now) > OLDEST_TAP)
    throw Invalid.field('at', 'This tap is more than seven days old. Write the time down instead.');
  return at;
};

/**
 * @throws Conflict when a clock would be stopped before it was started
 */
export const mustHaveBegun = ({ begunAt }: Pick<RunningClock, 'begunAt'>, at: Instant): void => {
  if (at < begunAt)
    throw new Conflict('This clock would be stopped before it was started.', 'stopped-before-started', [
      { field: 'at', text: 'It was started later than that.' },
    ]);
};

/** The note of a clock's minutes that are still to be asked about; an answer leaves a correction in their place. */
export const PERHAPS_LEFT_RUNNING = 'Perhaps left running';
