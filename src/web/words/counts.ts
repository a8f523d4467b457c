/**
 * A number of things in words: `no garments`, `one garment`, `12 garments`.
 *
 * @param count a whole number, not negative
 * @param one the word for one of them
 * @param many the word for several, where it is not made with s
 */
export const countInWords = (count: number, one: string, many = `${one}s`): string =>
  count === 0 ? `no ${many}` : count === 1 ? `one ${one}` : `${count} ${many}`;

/** Words in a row: `jacket`, `jacket and waistcoat`, `jacket, waistcoat and breeches`. */
export const listInWords = (words: readonly string[]): string =>
  words.length < 2
    ? (words[0] ?? '')
    : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1] ?? ''}`;

/** A sentence's first letter as a capital; other scripts stay as they are. */
export const capitalised = (words: string): string => {
  const [first = '', ...rest] = [...words];
  return first.toLocaleUpperCase('en') + rest.join('');
};
