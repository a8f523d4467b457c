import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const style = readFileSync(new URL('../../../templates/papers/css/sheet.css', import.meta.url), 'utf8');

/** Relative luminance. @see WCAG 2.2, definition of relative luminance */
const luminance = (hex: string): number => {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5]
    .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
};
const onWhite = (hex: string): number => 1.05 / (luminance(hex) + 0.05);

it('measures contrast as the standard does', () => {
  // WCAG 2.2, 1.4.3: black on white is 21 to 1. #767676 on white is the lightest grey of 4.5 to 1 (from memory).
  expect(onWhite('#000000')).toBeCloseTo(21, 5);
  expect(onWhite('#767676')).toBeCloseTo(4.54, 2);
});

it('keeps every ink of the papers readable on white: at least 7 to 1, more than AA asks of small print', () => {
  const inks = [...style.matchAll(/--accent: (#[0-9a-f]{6});/g)].map(([, hex = '']) => hex);
  expect(inks).toHaveLength(5);
  for (const hex of inks) expect([hex, onWhite(hex) >= 7]).toEqual([hex, true]);
});
