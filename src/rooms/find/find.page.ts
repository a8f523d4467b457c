import type { FoundKind } from '../../storage/finding/find-anything.js';
import { findables } from '../../storage/finding/findables.js';
import type { PageWords } from '../../web/reply.js';
import { subjectUrl } from '../../web/subject-url.js';
import { listInWords } from '../../web/words/counts.js';

/** What was found, by kind. */
export const findPage = (asked: string, kinds: readonly FoundKind[]): PageWords => ({
  title: asked.trim() ? `Find: ${asked.trim().slice(0, 60)}` : 'Find',
  tab: 'Find',
  room: 'none',
  find: asked,
  asked,
  isAsked: asked.trim() !== '',
  any: kinds.length > 0,
  label: `Find among ${listInWords(findables.map(({ name }) => name.toLowerCase()))}`,
  kinds: kinds.map(({ name, found, more }) => ({
    name,
    more,
    found: found.map(({ text, note = '', about }) => ({ text, note, href: subjectUrl(about) ?? '/' })),
  })),
});
