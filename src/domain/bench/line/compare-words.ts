const EMPTY_WORDS = new Set([
  'the',
  'a',
  'an',
  'of',
  'and',
  'or',
  'by',
  'in',
  'for',
  'to',
  'on',
  'at',
  'with',
  'his',
  'her',
]);

/**
 * How well words fit: 0 the whole name; 1 the whole name in another form (`basting` for `baste`); 2 every word is in it;
 * 3 every word in another form; 4 every word begins one of its words.
 */
export type Fit = 0 | 1 | 2 | 3 | 4;

const singular = (word: string): string =>
  word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word;

/** The same few names are compared again and again: what was worked out is kept, so many and no more. */
const kept = <T>(work: (text: string) => T): ((text: string) => T) => {
  const known = new Map<string, T>();
  return (text) => {
    const found = known.get(text);
    if (found !== undefined) return found;
    if (known.size >= 5000) known.clear();
    const worked = work(text);
    known.set(text, worked);
    return worked;
  };
};

/** Words without capitals, accents, plural s and small words. */
export const wordsOf = kept((text: string): readonly string[] =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '' && !EMPTY_WORDS.has(word))
    .map(singular),
);

/** A word without its ending, so that `pressing`, `pressed` and `press` are one: common practice, no source. */
export const stemOf = kept((word: string): string =>
  word
    .replace(/^(.{3,})(?:ing|ed)$/u, '$1')
    .replace(/^(.{2,})e$/u, '$1')
    .replace(/(\p{L})\1$/u, '$1'),
);

const isSame = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((word, place) => word === b[place]);

/** Is the word one of these, in any form? */
export const isAmong = (word: string, known: readonly string[]): boolean =>
  known.includes(word) || known.some((one) => stemOf(one) === stemOf(word));

/**
 * How well typed words fit a name.
 *
 * @param typed words as `wordsOf` gives them, at least one
 * @param name words of the name
 * @returns the fit, the smaller the better; undefined where some word is not in the name
 * @see test/domain/bench/time-line.test.ts
 */
export const fitOf = (typed: readonly string[], name: readonly string[]): Fit | undefined => {
  if (isSame(typed, name)) return 0;
  if (isSame(typed.map(stemOf), name.map(stemOf))) return 1;
  if (typed.every((word) => name.includes(word))) return 2;
  if (typed.every((word) => isAmong(word, name))) return 3;
  const begins = (word: string): boolean =>
    word.length > 1 && name.some((one) => one.startsWith(word) || one.startsWith(stemOf(word)));
  return typed.every((word) => isAmong(word, name) || begins(word)) ? 4 : undefined;
};
