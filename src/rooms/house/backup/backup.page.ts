import { randomUUID } from 'node:crypto';
import type { Backup, Backups } from '../../../storage/backup/backups.js';
import type { PageWords } from '../../../web/reply.js';
import { instantInWords } from '../../../web/words/dates.js';
import { sizeInWords } from '../../../web/words/sizes.js';
import type { StandingWords } from './standing-words.js';

const MANNER: Record<Backups['kind'], string> = {
  sqlite:
    'A backup is one file with everything in it. It is made while the studio works on, then opened and read through before it counts.',
  postgres:
    'The studio’s data is in PostgreSQL, whose own dump is the first choice for a backup. Here a copy of every row is made, one a line; this program can restore it too.',
};

/** What a passphrase does, and how one is set. */
const SEALING = {
  sealed:
    'Every backup is sealed with the passphrase in BACKUP_PASSPHRASE, in the open format age. Keep the passphrase somewhere else than the backups: without it nobody can open them, you included.',
  open: 'Whoever has a backup can read it. To seal every backup with a passphrase, set BACKUP_PASSPHRASE and start the program again.',
};

/** @param made the name of the backup just made, if any */
export const backupPage = (
  backups: readonly Backup[],
  { kind, areSealed }: Pick<Backups, 'kind' | 'areSealed'>,
  standing: StandingWords,
  zone: string,
  made: string,
): PageWords => {
  const justMade = backups.find(({ name }) => name === made);
  return {
    title: 'Backup',
    room: 'house',
    crumbs: [{ text: 'House', href: '/house' }],
    manner: MANNER[kind],
    last: standing.last,
    cautions: standing.cautions,
    keeping:
      'While the program runs, one backup is made every day. Kept are those of 7 days, 4 weeks and 12 months; one made by hand stays until you take it away.',
    sealing: SEALING[areSealed ? 'sealed' : 'open'],
    opening: areSealed ? 'age -d -o bastings.sqlite bastings-….sqlite.age' : '',
    ...(justMade
      ? { notice: { text: `A backup was made and checked: ${sizeInWords(justMade.bytes)}.` } }
      : {}),
    make: { action: '/house/backup', text: 'Make a backup now', once: randomUUID() },
    any: backups.length > 0,
    list: {
      caption: 'Backups, newest first',
      quietCaption: true,
      columns: [{ text: 'Made' }, { text: 'How' }, { text: 'Size', figure: true }, { text: 'File' }],
      rows: backups.map(({ name, madeAt, bytes, daily, sealed }) => ({
        cells: [
          { text: instantInWords(madeAt, zone) },
          { text: `${daily ? 'Daily' : 'By hand'}${sealed ? ', sealed' : ''}` },
          { text: sizeInWords(bytes) },
          { text: name, href: `/house/backup/${encodeURIComponent(name)}` },
        ],
      })),
    },
    restoreWith: `npm run restore -- ${backups[0]?.name ?? 'bastings-….sqlite'}`,
  };
};
