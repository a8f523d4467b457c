import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { ratioByGauge } from '../../../src/domain/stock/need/ratio-by-gauge.js';
import { measuredRatio, reelsFor, threadNeed } from '../../../src/domain/stock/need/thread-need.js';
import { PUBLISHED_RATIOS } from '../../../src/domain/stock/need/thread-ratios.js';

const d = (number: string | number) => new Decimal(number);
const one = d(1);

describe('TH-01 Coats’ method for stitch type 401 (apparelscience.com, Measuring actual thread consumption)', () => {
  it('19.5 and 62.0 cm unpicked from 15 cm: 1.3 and 4.13; 100 cm take 540 cm, with 15 % waste 621', () => {
    expect(measuredRatio(d('19.5'), d(15)).toNumber()).toBe(1.3);
    expect(measuredRatio(d('62.0'), d(15)).toFixed(2)).toBe('4.13');
    const seams = ['1.3', '4.1'].map((ratio) => ({ length: d(100), times: one, ratio: d(ratio) }));
    const need = threadNeed(seams, d('0.15'));
    expect([need.thread.toNumber(), need.withWaste.toNumber()]).toEqual([540, 621]);
  });
});

describe('TH-06 a full-sleeve woven shirt (textilecalculation.blogspot.com, September 2015)', () => {
  // Inches of thread for each item as printed; three of them with their working, the others as they stand.
  const worked = [
    { length: d(16), times: d(2), ratio: d('2.5') },
    { length: d(20), times: d(2), ratio: d(9) },
    { length: d(13), times: one, ratio: d(6) },
    { length: d(17), times: one, ratio: d('5.5') },
  ];
  const printed = [
    30, 160, 10, 80, 200, 200, 40, 25, 25, 30, 10, 50, 12.5, 150, 75, 22.5, 52.5, 100, 120, 105, 378,
  ];
  const seams = [...worked, ...printed.map((inches) => ({ length: d(inches), times: one, ratio: one }))];
  const { thread, withWaste } = threadNeed(seams, d('0.2'));

  it('2,487 inches = 69 yd = 63.17 m; with 20 % waste 75.8 m, printed as 76', () => {
    expect(thread.toNumber()).toBe(2487);
    expect(thread.div(36).toDecimalPlaces(0).toNumber()).toBe(69);
    expect(thread.times('0.0254').toFixed(2)).toBe('63.17');
    expect(withWaste.times('0.0254').toDecimalPlaces(0).toNumber()).toBe(76);
  });

  it('500 shirts of 75.96 m take 13 cones of 3,000 m', () => {
    expect(reelsFor(d('75.96').times(500), d(3000))).toBe(13);
  });
});

describe('both published families of ratios', () => {
  const ratio = (family: string, stitch: string) =>
    PUBLISHED_RATIOS.find((each) => each.family === family && each.stitch === stitch)?.ratio.toString();

  it('agree on lockstitch and differ on 101 and 304 (Carr & Latham; Coats, Stitch Type Classification Guide)', () => {
    expect([ratio('table', '301'), ratio('guide', '301')]).toEqual(['2.5', '2.5']);
    expect([ratio('table', '101'), ratio('guide', '101')]).toEqual(['4', '5']);
    expect([ratio('table', '304'), ratio('guide', '304')]).toEqual(['7', '5.5']);
    expect([ratio('table', '103'), ratio('guide', '103')]).toEqual([undefined, '4.5']);
  });

  it('stand with their source', () => {
    expect(PUBLISHED_RATIOS).toHaveLength(16);
    expect(PUBLISHED_RATIOS.every(({ source }) => source.length > 10)).toBe(true);
  });
});

describe('thread', () => {
  it('refuses seams that cannot be', () => {
    expect(() => threadNeed([{ length: d(-1), times: one, ratio: one }], d(0))).toThrow('A seam');
    expect(() => threadNeed([{ length: one, times: one, ratio: d(0) }], d(0))).toThrow('A seam');
    expect(() => threadNeed([], d(-1))).toThrow('Waste');
    expect(() => measuredRatio(one, d(0))).toThrow('longer than nothing');
    expect(() => reelsFor(one, d(0))).toThrow('reel');
  });
});

describe('TH-03 the Union Special chart for stitch type 401 at eight to the inch (A&E archive)', () => {
  it.each([
    ['.055', '4.88'],
    ['.060', '4.96'],
    ['.065', '5.04'],
    ['.070', '5.12'],
    ['.075', '5.20'],
  ])('%s in of thickness: %s', (thickness, ratio) => {
    expect(ratioByGauge('401', d(thickness), d(0), d(8)).toFixed(2)).toBe(ratio);
  });
});

describe('TH-04 the Union Special formulas (textiletechinsight.com, thread consumption)', () => {
  const [T, W, S] = [0.06, 0.2, 9];
  it.each([
    ['101', 3 + 2 * T * S],
    ['301', 2 + 2 * T * S],
    ['401', 4 + 2 * T * S],
    ['406', 7 + 2 * S * (T + W)],
    ['504', 5 + 4 * S * (W + T)],
    ['514', 5 + 2 * S * (3 * T + 2 * W)],
    ['516', 9 + 2 * S * (2 * W + 3 * T)],
    ['602', 8 + S * (5 * W + 4 * T)],
    ['605', 10 + 2 * S * (2 * W + 3 * T)],
    ['607', 12 + 4 * S * (W + 2 * T)],
  ])('%s', (stitch, ratio) => {
    expect(ratioByGauge(stitch, d(T), d(W), d(S)).toNumber()).toBeCloseTo(ratio, 12);
  });

  it('refuses another type, nothing of an inch, and what is below nought', () => {
    expect(() => ratioByGauge('999', d(1), d(1), d(1))).toThrow('stitch types');
    expect(() => ratioByGauge('301', d(-1), d(1), d(1))).toThrow('thinner');
    expect(() => ratioByGauge('301', d(1), d(-1), d(1))).toThrow('narrower');
    expect(() => ratioByGauge('301', d(1), d(1), d(0))).toThrow('in an inch');
  });
});
