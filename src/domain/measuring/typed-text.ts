const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅐': '1/7',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅑': '1/9',
  '⅒': '1/10',
};

const isDigit = (code: number): boolean => /^\p{Nd}$/u.test(String.fromCodePoint(code));

// Unicode keeps decimal digits in runs of ten, so a digit's value is its distance from the start of its run.
const digitValue = (character: string): string => {
  const code = character.codePointAt(0) ?? 0;
  let start = code;
  while (isDigit(start - 1)) start -= 1;
  return String((code - start) % 10);
};

/**
 * Brings what keyboards, phones and word processors make of a number back to plain signs, and changes no meaning:
 * full-width and other scripts' digits, vulgar fractions (`½` becomes ` 1/2`), curly quotes and primes, dashes, the
 * Arabic decimal mark, odd spaces; marks of writing direction and zero-width signs go.
 *
 * Superscripts stay as they are: `38²` must not become 382.
 *
 * @returns lower-case text, single spaces, trimmed; quotes as `'` and `"`
 * @see test/domain/measuring/length-entry.test.ts
 */
export const foldTyped = (typed: string): string =>
  typed
    .replace(/[\u200b-\u200f\u202a-\u202e\u2060-\u2069\u061c\ufeff\u00ad]/g, '')
    .replace(/[\uff01-\uff5e]/g, (sign) => String.fromCharCode(sign.charCodeAt(0) - 0xfee0))
    .replace(/\p{Nd}/gu, digitValue)
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]/g, (sign) => ` ${VULGAR[sign] ?? sign}`)
    .replace(/[\u2044\u2215]/g, '/')
    .replace(/\u066b/g, '.')
    .replace(/[‐‑‒–—−]/g, '-')
    .replace(/[‘’‚‛′ʹʼ`´]/g, "'")
    .replace(/[“”„‟″ʺ〃]|''/g, '"')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();

/** A short quotation of what was typed, for a sentence: at most 40 characters. */
export const quoted = (typed: string): string => {
  const plain = [...typed.trim()];
  return `“${plain.length > 40 ? `${plain.slice(0, 40).join('')}…` : plain.join('')}”`;
};
