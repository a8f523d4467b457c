import { randomUUID } from 'node:crypto';
import type { Backup, Backups } from '../../../storage/backup/backups.js';
import type { PageWords } from '../../../web/reply.js';
import { instantInWords } from '../../../web/words/dates.js';
import { sizeInWords } from '../../../web/words/sizes.js';

const MANNER: Record<Backups['kind'], string> = {
  sqlite:
    'A backup is one file with everything in it. It is made while the studio works on, then opened and read through before it counts.',
  postgres:
    'The studio’s data is in PostgreSQL, whose own dump is the first choice for a backup. Here a copy of every row is made, one a line; this program can restore it too.',
};

/** @param made the name of the backup just made, if any */
export const backupPage = (
  backups: readonly Backup[],
  kind: Backups['kind'],
  zone: string,
  made: string,
): PageWords => {
  const justMade = backups.find(({ name }) => name === made);
  return {
    title: 'Backup',
    room: 'house',
    crumbs: [{ text: 'House', href: '/house' }],
    manner: MANNER[kind],
    ...(justMade
      ? { notice: { text: `A backup was made and checked: ${sizeInWords(justMade.bytes)}.` } }
      : {}),
    make: { action: '/house/backup', text: 'Make a backup now', once: randomUUID() },
    any: backups.length > 0,
    list: {
      caption: 'Backups, newest first',
      quietCaption: true,
      columns: [{ text: 'Made' }, { text: 'Size', figure: true }, { text: 'File' }],
      rows: backups.map(({ name, madeAt, bytes }) => ({
        cells: [
          { text: instantInWords(madeAt, zone) },
          { text: sizeInWords(bytes) },
          { text: name, href: `/house/backup/${encodeURIComponent(name)}` },
        ],
      })),
    },
    restoreWith: `npm run restore -- ${backups[0]?.name ?? 'bastings-….sqlite'}`,
  };
};
