import { randomUUID } from 'node:crypto';
import type { Studio } from '../../domain/house/studio.js';
import type { Conflict } from '../../domain/kernel/errors.js';
import type { Act } from '../../storage/history/history-book.js';
import type { PageWords } from '../../web/reply.js';
import { subjectUrl } from '../../web/subject-url.js';
import { instantInWords } from '../../web/words/dates.js';
import { changeTable, type Manner } from './act-words.js';

const MOST_ROWS_SHOWN = 6;

// Before the first questions are answered there is no studio, but there may be something to undo.
const mannerOf = (studio: Studio | undefined): Manner =>
  studio?.identity ?? { zone: 'UTC', locale: 'en', currency: 'EUR' };

export const historyUrl = (about: string, before?: string): string => {
  const query = new URLSearchParams({
    ...(about ? { about } : {}),
    ...(before ? { before } : {}),
  }).toString();
  return query ? `/history?${query}` : '/history';
};

/** What was done, newest first: who, when, what, from and to, and the way back. */
export const historyPage = (
  found: { items: readonly Act[]; next: string | undefined },
  asked: { about: string; before: string },
  studio: Studio | undefined,
): PageWords => ({
  title: 'History',
  room: 'house',
  ...crumbsOf(asked.about),
  isAboutOne: asked.about !== '',
  entries: found.items.map((act) => entryOf(act, asked, mannerOf(studio))),
  any: found.items.length > 0,
  isBeginning: asked.before === '',
  pager: {
    label: 'History',
    ...(asked.before ? { earlier: { text: 'Newest', href: historyUrl(asked.about) } } : {}),
    ...(found.next ? { later: { text: 'Before that', href: historyUrl(asked.about, found.next) } } : {}),
  },
});

const crumbsOf = (about: string): Pick<PageWords, 'crumbs'> => {
  const url = subjectUrl(about);
  return url ? { crumbs: [{ text: 'Back to what this is about', href: url }] } : {};
};

const entryOf = (act: Act, asked: { about: string; before: string }, manner: Manner) => {
  const tables = act.changes.flatMap((change) => changeTable(change, manner) ?? []);
  const url = subjectUrl(act.about);
  return {
    when: instantInWords(act.at, manner.zone),
    who: act.who,
    what: act.sentence,
    ...(url && !asked.about ? { href: url } : {}),
    summary: act.changes.some(({ did }) => did === 'changed') ? 'From and to' : 'What it held',
    tables: tables.slice(0, MOST_ROWS_SHOWN),
    more: tables.length > MOST_ROWS_SHOWN ? `and ${tables.length - MOST_ROWS_SHOWN} more` : '',
    ...(act.whyNot
      ? { whyNot: act.whyNot.sentence }
      : {
          undo: {
            action: `/history/${act.id}/undo`,
            text: 'Undo',
            label: `Undo: ${act.sentence}`,
            once: randomUUID(),
            values: { back: historyUrl(asked.about) },
          },
        }),
  };
};

/** An act could not be undone: why, and where to look. */
export const notUndonePage = (act: Act, conflict: Conflict, back: string): PageWords => ({
  title: 'Not undone',
  room: 'house',
  sentence: conflict.message,
  what: act.sentence,
  since: { text: 'See what was done since', href: historyUrl(act.about) },
  back: { text: 'Back', href: back },
});
