import { randomUUID } from 'node:crypto';
import type { PageWords } from '../../../web/reply.js';
import { instantInWords } from '../../../web/words/dates.js';
import { sizeInWords } from '../../../web/words/sizes.js';
import type { Writing, Written } from './exports.js';

export const EXPORT = '/house/export';

/** What an export is, how far one has come, and the last one. */
export const exportPage = (
  now: Writing | undefined,
  written: Written | undefined,
  zone: string,
): PageWords => ({
  title: 'Export',
  room: 'house',
  crumbs: [{ text: 'House', href: '/house' }],
  here: EXPORT,
  runs: now?.is === 'running',
  done: now?.is === 'running' ? now.done : 0,
  all: now?.is === 'running' ? now.all : 1,
  text: now?.is === 'running' ? `${now.done} of ${now.all} parts` : '',
  failed: now?.is === 'failed' ? `The export was not written. ${now.text}` : '',
  last: written
    ? {
        text: `Written on ${instantInWords(written.madeAt, zone)}, ${sizeInWords(written.bytes)}`,
        name: written.name,
        href: `${EXPORT}/${encodeURIComponent(written.name)}`,
      }
    : undefined,
  make: { action: EXPORT, text: 'Write an export', once: randomUUID() },
});
