/** What stands where somebody's name stood. */
export const STRUCK = 'a former client';

const SPECIAL = /[.*+?^${}()|[\]\\]/g;

/**
 * Text without certain words: each stands alone, in capitals or not, and is struck wherever it does. Part of a longer word
 * stays: striking Ann leaves Annex.
 *
 * @param words longest first or not; empty ones strike nothing
 * @returns the text with `a former client` in the place of each; the same text where none was found
 * @see test/domain/clients/strike-out.test.ts
 */
export const strikeOut = (text: string, words: readonly string[]): string => {
  const wanted = words
    .filter((word) => word.trim() !== '')
    .toSorted((a, b) => b.length - a.length)
    .map((word) => word.replace(SPECIAL, '\\$&'));
  if (wanted.length === 0) return text;
  return text.replace(
    new RegExp(`(?<![\\p{L}\\p{N}])(?:${wanted.join('|')})(?![\\p{L}\\p{N}])`, 'giu'),
    STRUCK,
  );
};

/**
 * The same in what may be a document: in each of its strings, so that a line end written as `\\n` joins nothing to a name.
 *
 * @param text words, or JSON of an object or a list
 * @returns JSON again where it was JSON and something was struck; the same text where nothing was
 * @see test/domain/clients/strike-out.test.ts
 */
export const strikeOutOfDocument = (text: string, words: readonly string[]): string => {
  const document = documentIn(text);
  if (document === undefined) return strikeOut(text, words);
  let struck = false;
  const without = (part: unknown): unknown => {
    if (typeof part === 'string') {
      // A document may hold another one, kept as text.
      const left = strikeOutOfDocument(part, words);
      struck ||= left !== part;
      return left;
    }
    if (Array.isArray(part)) return part.map(without);
    if (part === null || typeof part !== 'object') return part;
    return Object.fromEntries(Object.entries(part).map(([name, one]) => [name, without(one)]));
  };
  const left = without(document);
  return struck ? JSON.stringify(left) : text;
};

const documentIn = (text: string): object | undefined => {
  if (!/^\s*[[{]/.test(text)) return undefined;
  try {
    return JSON.parse(text) as object;
  } catch {
    return undefined;
  }
};

/**
 * The words that lead to somebody: names whole and in their parts, addresses line by line. Parts of fewer than four letters
 * are left out: they would strike half the language.
 *
 * @param names every name they have had here
 * @param marks what belongs to nobody else: address, email, telephone, tax number; lines of fewer than five characters are
 *   left out
 * @returns each once
 * @see test/domain/clients/strike-out.test.ts
 */
export const wordsLeadingTo = (names: readonly string[], marks: readonly string[]): string[] => {
  const whole = names.map((name) => name.trim()).filter((name) => name !== '');
  const parts = whole.flatMap((name) => name.split(/[\s,]+/)).filter((part) => [...part].length >= 4);
  const lines = marks
    .flatMap((mark) => mark.split(/\r?\n/))
    .map((line) => line.trim().replace(/,$/, ''))
    .filter((line) => [...line].length >= 5);
  return [...new Set([...whole, ...parts, ...lines])];
};
