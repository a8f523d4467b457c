import { createHash } from 'node:crypto';
import { Invalid } from '../../domain/kernel/errors.js';

/** A version as an entity tag. @see RFC 9110, section 8.8.3 */
export const etagOf = (version: number): Record<string, string> => ({ etag: `"${version}"` });

/** A list's tag: it changes when any of its things does, comes, goes or moves. */
export const tagOfAll = (things: readonly { readonly id: string; readonly version: number }[]): string =>
  createHash('sha256')
    .update(JSON.stringify(things.map(({ id, version }) => [id, version])))
    .digest('base64url')
    .slice(0, 22);

export const etagOfAll = (...things: Parameters<typeof tagOfAll>): Record<string, string> => ({
  etag: `"${tagOfAll(...things)}"`,
});

/** The tag of the list a program saw, out of If-Match; none when the header is absent or `*`. @throws Invalid */
export const tagOfIfMatch = (header: string | undefined): string | undefined => {
  if (header === undefined || header.trim() === '*') return undefined;
  const match = /^(?:W\/)?"([\w-]{1,40})"$/.exec(header.trim());
  if (!match) throw new Invalid('If-Match takes the ETag of the answer that was read.');
  return match[1];
};

/**
 * The version a program saw, out of If-Match; none when the header is absent or `*`.
 *
 * @throws Invalid when it is not one of our tags
 */
export const versionOfIfMatch = (header: string | undefined): number | undefined => {
  if (header === undefined || header.trim() === '*') return undefined;
  const match = /^(?:W\/)?"(\d{1,9})"$/.exec(header.trim());
  if (!match) throw new Invalid('If-Match takes the ETag of the answer that was read, such as "3".');
  return Number(match[1]);
};
