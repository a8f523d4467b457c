import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bytesOf,
  onOneLine,
  permittedCharacters,
  piecesOfBytes,
} from '../../../src/printing/exchange/characters.js';

describe('characters', () => {
  it('that no open format may carry fall out, every other stays', () => {
    expect(permittedCharacters('a\u0000b\u0008c\u000bd\ud800e\udc00f\ufffeg\uffffh')).toBe('abcdefgh');
    expect(permittedCharacters('\t\r\n é \u007f \ufffd 🧵')).toBe('\t\r\n é \u007f \ufffd 🧵');
  });

  it('come on one line', () => {
    expect(onOneLine(' Two\r\nlines\u2028or\u0085 more\t')).toBe('Two lines or more');
  });

  it('are counted and cut by bytes, never inside one', () => {
    expect(bytesOf('é漢🧵')).toBe(9);
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 80 }), (text) => {
        const pieces = piecesOfBytes(text, 10, 9);
        expect(pieces.join('')).toBe(text);
        expect(pieces.every((piece, at) => bytesOf(piece) <= (at === 0 ? 10 : 9))).toBe(true);
      }),
    );
  });
});
