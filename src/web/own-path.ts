/**
 * An address to go back to, if it is one of this server's own; otherwise the other one.
 *
 * Read as a browser reads it: tabs and line ends vanish from an address, and `//`, `/\` begin another site's.
 *
 * @see WHATWG URL Standard, basic URL parser
 */
export const ownPath = (said: string | undefined, otherwise = '/'): string => {
  if (!said?.startsWith('/')) return otherwise;
  try {
    const here = 'http://this.invalid';
    const { origin, pathname, search, hash } = new URL(said, here);
    // The path itself may begin with two strokes, where it stood behind a dot: `/.//elsewhere`.
    return origin === here && !pathname.startsWith('//') ? pathname + search + hash : otherwise;
  } catch {
    return otherwise;
  }
};
