import jsqr from 'jsqr';
import { describe, expect, it } from 'vitest';
import { epcPayload } from '../../../src/domain/papers/payment/epc-payload.js';
import { paymentCode } from '../../../src/printing/exchange/payment-code.js';
import { euro } from '../../domain/papers/quillmere.js';

/* Decoded by jsqr, a decoder that shares no line with the encoder, and compared byte by byte. */

const decode = ((jsqr as unknown as { default?: typeof jsqr }).default ?? jsqr) as unknown as (
  pixels: Uint8ClampedArray,
  width: number,
  height: number,
) => { binaryData: number[]; version: number } | null;

/** The dark modules of a drawing, read off its own path. */
const modulesOf = (markup: string): boolean[][] => {
  const size = Number(/viewBox="0 0 (\d+) \d+"/.exec(markup)?.[1]);
  const rows = Array.from({ length: size }, () => Array.from({ length: size }, () => false));
  const path = /<path fill="#000" d="([^"]+)"/.exec(markup)?.[1] ?? '';
  for (const run of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-(\d+)z/g)) {
    const [x, y, wide, back] = run.slice(1).map(Number) as [number, number, number, number];
    expect(back).toBe(wide);
    for (let at = x; at < x + wide; at += 1) rows[y]![at] = true;
  }
  return rows;
};

const SCALE = 4;

const read = (markup: string) => {
  const rows = modulesOf(markup);
  const side = rows.length * SCALE;
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
  rows.forEach((row, y) => {
    row.forEach((dark, x) => {
      if (!dark) return;
      for (let dy = 0; dy < SCALE; dy += 1)
        for (let dx = 0; dx < SCALE; dx += 1)
          pixels.fill(
            0,
            ((y * SCALE + dy) * side + x * SCALE + dx) * 4,
            ((y * SCALE + dy) * side + x * SCALE + dx) * 4 + 3,
          );
    });
  });
  return { rows, code: decode(pixels, side, side) };
};

const payload = (name: string, text: string): string =>
  epcPayload({ name, iban: 'DE89370400440532013000', bic: 'QUILIE2DXXX', amount: euro('1822.96'), text });

describe('a payment code', () => {
  it.each([
    ['plain words', payload('Quillmere Workroom', 'I-2026-007')],
    ['words beyond Latin', payload('Quillmere – Œuvre 漢字 🧵', 'Für die Hose, merci')],
    ['the most bytes a code may hold', payload('é'.repeat(70), `${'漢'.repeat(42)}xx`)],
  ])('is decoded byte by byte: %s', (_name, words) => {
    const { code, rows } = read(paymentCode(words, 'Payment code').markup);
    expect(Buffer.from(code?.binaryData ?? []).toString('hex')).toBe(
      Buffer.from(words, 'utf8').toString('hex'),
    );
    expect(code?.version).toBeLessThanOrEqual(13);
    // ISO/IEC 18004, format information: level M shows as a dark, then a light module at the left of row 8.
    expect([rows[4 + 8]?.[4], rows[4 + 8]?.[5]]).toEqual([true, false]);
  });

  it('reaches version 13 at 331 bytes and no further', () => {
    const most = payload('é'.repeat(70), `${'漢'.repeat(35)}`);
    const full = most + 'x'.repeat(331 - Buffer.byteLength(most, 'utf8'));
    expect(read(paymentCode(full, 'x').markup).code?.version).toBe(13);
    expect(() => paymentCode(`${full}x`, 'x')).toThrow('too long');
  });

  it('is a safe picture with a quiet zone of four modules, its label escaped', () => {
    const { markup } = paymentCode('BCD', '"><script>&');
    expect(markup).toContain('aria-label="&quot;&gt;&lt;script&gt;&amp;"');
    const rows = modulesOf(markup);
    expect(rows.slice(0, 4).flat().some(Boolean)).toBe(false);
    expect(rows.every((row) => !row.slice(0, 4).some(Boolean) && !row.slice(-4).some(Boolean))).toBe(true);
  });
});
