/**
 * A text without the signs that no open format may carry: control characters other than tab and line ends, halves of
 * surrogate pairs, U+FFFE and U+FFFF. What is left is the production Char of XML 1.0.
 *
 * @see W3C, Extensible Markup Language (XML) 1.0, fifth edition, section 2.2; test/printing/exchange/characters.test.ts
 */
export const permittedCharacters = (text: string): string =>
  text.replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '');

/** One line of plain words: every run of blanks and line ends is one blank. */
export const onOneLine = (text: string): string =>
  permittedCharacters(text)
    .replace(/[\s\u0085\u2028\u2029]+/g, ' ')
    .trim();

/** How many bytes the text has in UTF-8, which is what formats count. */
export const bytesOf = (text: string): number => new TextEncoder().encode(text).length;

/**
 * Cuts a text into pieces of at most so many bytes of UTF-8, never inside a character.
 *
 * @param first bytes in the first piece, at least 4
 * @param later bytes in every later piece, at least 4
 */
export const piecesOfBytes = (text: string, first: number, later: number): string[] => {
  const pieces = [''];
  let room = first;
  for (const sign of text) {
    const size = bytesOf(sign);
    if (size > room) {
      pieces.push('');
      room = later;
    }
    pieces[pieces.length - 1] += sign;
    room -= size;
  }
  return pieces;
};
