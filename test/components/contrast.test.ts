import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

// Relative luminance and contrast ratio: Web Content Accessibility Guidelines (WCAG) 2.2, W3C Recommendation,
// 2023, section "Terms"; least ratios from success criteria 1.4.3 (text, 4.5) and 1.4.11 (parts of controls, 3).
const luminance = (colour: string): number => {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5]
    .map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
};

const contrast = (one: string, other: string): number => {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
};

type Palette = Record<string, string>;

const coloursIn = (rule: string): Palette =>
  Object.fromEntries(
    [...rule.matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6});/g)].map(([, name, colour]) => [name, colour]),
  );

const css = readFileSync('templates/assets/css/tokens.css', 'utf8');
const [bright = '', dim = ''] = css.split('@media (prefers-color-scheme: dark)');

const palettesOf = (part: string): [string, Palette][] => {
  const ground = coloursIn(/:root \{([^}]*)\}/.exec(part)?.[1] ?? '');
  const accents = [...part.matchAll(/:root\[data-accent="([a-z]+)"\] \{([^}]*)\}/g)];
  return [
    ['madder', ground],
    ...accents.map(([, name = '', rule = '']): [string, Palette] => [
      name,
      { ...ground, ...coloursIn(rule) },
    ]),
  ];
};

const palettes = [
  ...palettesOf(bright).map(([name, palette]): [string, Palette] => [`${name}, light`, palette]),
  ...palettesOf(dim).map(([name, palette]): [string, Palette] => [`${name}, dark`, palette]),
];

it('measures contrast as the guidelines define it: black on white is 21 to 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
  expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
});

it('finds five accents in light and in dark', () => {
  expect(palettes).toHaveLength(10);
});

describe.each(palettes)('%s', (_, palette) => {
  const of = (name: string): string => palette[name] ?? '';

  it.each(['ink', 'ink-soft', 'accent'])('%s can be read on both grounds', (name) => {
    for (const ground of ['paper', 'paper-deep']) {
      expect(contrast(of(name), of(ground))).toBeGreaterThanOrEqual(4.5);
    }
  });

  it('the words of the main act can be read on it', () => {
    expect(contrast(of('on-accent'), of('accent'))).toBeGreaterThanOrEqual(4.5);
  });

  it('the line of a field stands out on both grounds', () => {
    for (const ground of ['paper', 'paper-deep'])
      expect(contrast(of('rule'), of(ground))).toBeGreaterThanOrEqual(3);
  });
});
