import type { Backups } from '../../../storage/backup/backups.js';
import { countInWords } from '../../../web/words/counts.js';
import { instantInWords } from '../../../web/words/dates.js';

export type Standing = Awaited<ReturnType<Backups['standing']>>;

/** When the last good backup was made, and what there is to look after. */
export type StandingWords = { readonly last: string; readonly cautions: readonly string[] };

export const standingWords = (
  { lastGood, wholeDays = 0, isOld, trouble }: Standing,
  zone: string,
): StandingWords => ({
  last: lastGood
    ? `The last good backup was made on ${instantInWords(lastGood, zone)}.`
    : 'There is no backup yet. While the program runs, one is made every day.',
  cautions: [
    ...(trouble ? [`The backup of ${instantInWords(trouble.at, zone)} failed. ${trouble.text}`] : []),
    ...(isOld
      ? [
          `The last good backup is ${countInWords(wholeDays, 'day')} old. Make one now, and leave the program running for a while every day.`,
        ]
      : []),
  ],
});
