import { Invalid } from '../../domain/kernel/errors.js';

/** A version as an entity tag. @see RFC 9110, section 8.8.3 */
export const etagOf = (version: number): Record<string, string> => ({ etag: `"${version}"` });

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
