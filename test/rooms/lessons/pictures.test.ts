import { describe, expect, it } from 'vitest';
import type { HandPace } from '../../../src/domain/lessons/hand-paces.js';
import { pacePicture } from '../../../src/rooms/lessons/pace.picture.js';
import { dotsPicture } from '../../../src/rooms/lessons/type/dots.picture.js';

const numbers = (markup: string, element: RegExp): Record<string, string>[] =>
  [...markup.matchAll(element)].map(([tag]) =>
    Object.fromEntries([...tag.matchAll(/([a-z0-9-]+)="([^"]*)"/g)].map(([, name, value]) => [name, value])),
  );

/** The widest label, `9 in 10`, is seven signs of 16 units: about 56. Its line of text reaches 12 above its foot and 4 below. */
const WIDE = 56;

/** Labels of the picture that a line runs through. */
const struckThrough = (markup: string): string[] => {
  const lines = numbers(markup, /<line[^>]*>/g).filter(({ x1, x2 }) => x1 === x2);
  return numbers(markup, /<text[^>]*>/g)
    .filter((label) => {
      const x = Number(label.x);
      const [from, to] = label['text-anchor'] === 'end' ? [x - WIDE, x] : [x, x + WIDE];
      return lines.some(
        ({ x1, y1 }) => Number(x1) >= from && Number(x1) <= to && Number(y1) < Number(label.y) + 4,
      );
    })
    .map(({ x }) => x!);
};

describe('the dots of true hours', () => {
  for (const [even, fourInFive, nineInTen] of [
    [60, 66, 69],
    [60, 60.5, 61],
    [20, 40, 66],
    [60, 110, 113],
    [3, 60, 64],
  ] as const)
    it(`let no line through a label: ${even}, ${fourInFive} and ${nineInTen} h`, () => {
      const garments = [55, 60, 70].map((hours) => ({ hours, isFarOff: false }));
      const { picture } = dotsPicture({ garments, even, fourInFive, nineInTen });
      expect(struckThrough(picture.markup)).toEqual([]);
      expect(picture.markup.match(/<text/g)).toHaveLength(3);
    });
});

describe('the pace of the hand, drawn', () => {
  const pace = (name: string, typical: number, each: readonly number[], away = -1): HandPace => ({
    ...{ kind: name, name, garments: each.length, typical, low80: typical * 0.8, high80: typical * 1.2 },
    ...{ cmAnHour: 100, ofEach: each.map((one, place) => ({ pace: one, isFarOff: place === away })) },
  });

  it('is a row for each stitch, a dot for each garment and a stroke at the middle', () => {
    const drawn = pacePicture([
      pace('felling', 500, [400, 500, 600]),
      pace('pad stitching', 1000, [1000, 1000, 9000], 2),
    ])!;
    const { markup } = drawn.picture;
    const dots = numbers(markup, /<circle[^>]*>/g);
    expect(dots).toHaveLength(6);
    expect(dots.filter(({ fill }) => fill === 'none')).toHaveLength(1);
    const middles = numbers(markup, /<line[^>]*>/g).filter(({ x1, x2 }) => x1 === x2);
    // From nought at 12 to the quickest, 1000 an hour, at 628: 500 stands half way, at 320.
    expect(middles.map(({ x1 }) => x1)).toEqual(['320.0', '628.0']);
    expect(dots[0]!.cx).toBe((12 + 0.4 * 616).toFixed(1));
    // Far off stays on the paper.
    expect(dots[5]!.cx).toBe('628.0');
    expect(new Set(dots.map(({ cy }) => cy)).size).toBe(2);
    expect(markup).toContain('>Felling</text>');
    expect(drawn.left).toBe(0);
  });

  it('draws twelve kinds and says how many more there are', () => {
    const many = Array.from({ length: 15 }, (_, i) => pace(`kind ${i}`, 300, [300]));
    const { picture, left } = pacePicture(many)!;
    expect(picture.markup.match(/<text/g)).toHaveLength(12);
    expect(left).toBe(3);
  });

  it('draws no name as markup, however it is written, and cuts a long one', () => {
    const named = ['<script>x</script>', 'stitch onload="x" href=y', `a${'long '.repeat(40)}`];
    const { markup } = pacePicture(named.map((name) => pace(name, 300, [300])))!.picture;
    expect(markup).not.toContain('<script');
    expect(markup).not.toContain('onload="');
    expect(markup).toContain('\u2026</text>');
  });

  it('draws nothing where nothing is known', () => {
    expect(pacePicture([])).toBeUndefined();
  });
});
