import { Temporal } from 'temporal-polyfill';
import { dateIn, type Instant } from '../../kernel/calendar-date.js';

/** Days after which the last good backup is called old. Ours: a long weekend with the program switched off is no trouble. */
export const OLD_AFTER_DAYS = 3;

/** How it stands with the backups. */
export type BackupStanding = {
  /** When the last good backup was made; undefined where there is none. */
  readonly lastGood: Instant | undefined;
  /** Whole days of 24 hours since then, not negative; undefined where there is none. */
  readonly wholeDays: number | undefined;
  readonly isOld: boolean;
};

/**
 * When the last good backup was made, and whether that is too long ago.
 *
 * A copy dated after the present (the clock stood wrong once) is not counted: it would call every backup fresh.
 *
 * @param made instants of the backups that were checked, in any order
 * @param now the present
 * @returns whole days of 24 hours, rounded down; old from 3 whole days on
 * @see test/domain/house/backup-standing.test.ts
 */
export const backupStanding = (made: readonly Instant[], now: Instant): BackupStanding => {
  const lastGood = made
    .filter((at) => at <= now)
    .toSorted()
    .at(-1);
  if (!lastGood) return { lastGood: undefined, wholeDays: undefined, isOld: false };
  const { hours } = Temporal.Instant.from(lastGood).until(Temporal.Instant.from(now), {
    largestUnit: 'hour',
  });
  const wholeDays = Math.floor(hours / 24);
  return { lastGood, wholeDays, isOld: wholeDays >= OLD_AFTER_DAYS };
};

/**
 * Is the copy of the day still to be made? It is until one bears today's date, whatever dates the others bear.
 *
 * @param made instants of the daily copies there are
 * @param now the present
 * @param zone the time zone whose day is meant
 * @see test/domain/house/backup-standing.test.ts
 */
export const isBackupDue = (made: readonly Instant[], now: Instant, zone: string): boolean =>
  !made.some((at) => dateIn(at, zone) === dateIn(now, zone));
