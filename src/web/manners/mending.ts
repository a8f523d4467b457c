import type { Link } from '../../printing/templates/page-model.js';
import type { Request } from '../visit.js';

/** The cookie that remembers which draft waits while something else is mended for it. */
export const MENDING = 'mending';
const CHECK = /^\/commissions\/[0-9a-f-]{36}\/(?:quotes|invoices)\/drafts\/[0-9a-f-]{36}\/check$/;

const aCheck = (text: unknown): string | undefined =>
  typeof text === 'string' && CHECK.test(text) ? text : undefined;

/**
 * Where something is mended for a draft, so that the pages there lead back to it; a place within the draft stays as it is.
 *
 * @param draft the draft's own address; its check is at `/check` behind it
 */
export const mendedFor = (draft: string, href: string): string => {
  if (href.startsWith(draft)) return href;
  const [page = '', place] = href.split('#', 2);
  const said = `${MENDING}=${encodeURIComponent(`${draft}/check`)}`;
  return `${page}${page.includes('?') ? '&' : '?'}${said}${place === undefined ? '' : `#${place}`}`;
};

/** What becomes of the draft that waits: the way back to it, and whether it is remembered anew or no longer. */
export type Mending = { readonly back: Link | undefined; readonly keep: string | undefined | null };

/** @returns `keep`: a check to remember, null to forget the one remembered, undefined to leave it */
export const mendingOf = (request: Pick<Request, 'url' | 'query' | 'cookies'>): Mending => {
  const sent = aCheck((request.query as Record<string, unknown>)[MENDING]);
  const waits = sent ?? aCheck(request.cookies[MENDING]);
  if (!waits) return { back: undefined, keep: undefined };
  const path = request.url.split('?')[0] ?? '';
  // Whoever looks at the draft again has found the way back.
  if (path.startsWith(waits.slice(0, -'/check'.length))) return { back: undefined, keep: null };
  return { back: { text: 'Back to the draft that waits for this', href: waits }, keep: sent };
};
