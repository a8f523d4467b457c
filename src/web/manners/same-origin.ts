import type { IncomingHttpHeaders } from 'node:http';

const SAFE = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Does this request come from our own pages, or from a program that carries no cookie of ours?
 *
 * Browsers say so by Sec-Fetch-Site; where they cannot (no TLS on a home network) Origin, then Referer must name us.
 *
 * @see W3C Fetch Metadata Request Headers; RFC 6454
 */
export const isOurOwn = (method: string, headers: IncomingHttpHeaders): boolean => {
  if (SAFE.has(method)) return true;
  // A bearer token is sent by a program on purpose; no other site can make a browser add one.
  if (headers.authorization?.startsWith('Bearer ') && !headers.cookie) return true;
  const site = headers['sec-fetch-site'];
  if (site !== undefined) return site === 'same-origin' || site === 'none';
  const said = headers.origin ?? headers.referer;
  if (said === undefined) return headers.cookie === undefined;
  try {
    return new URL(said).host === headers.host;
  } catch {
    return false;
  }
};
