import { describe, expect, it } from 'vitest';
import {
  averageOfFirst,
  timeOfFirst,
  timeOfNth,
  timeOfNthByAverage,
} from '../../../src/domain/costing/learning-curve.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { OutOfRange } from '../../../src/domain/kernel/errors.js';

const d = (number: string | number) => new Decimal(number);

describe('W. J. Stevenson, Operations Management, 14th ed. (McGraw-Hill), supplement to chapter 7, example 7S-2', () => {
  it('LC-01 80 %, first 400 days: the 20th 152.48, all twenty 4,193.98 (table 7S.1 rounds to 0.381 and 10.485)', () => {
    const nth = timeOfNth(d(400), d('0.8'), 20);
    const all = timeOfFirst(d(400), d('0.8'), 20);
    expect([nth.toFixed(3), all.toFixed(2)]).toEqual(['152.483', '4193.98']);
    expect([nth.div(400).toFixed(3), all.div(400).toFixed(3)]).toEqual(['0.381', '10.485']);
    expect(all.div(20).toFixed(1)).toBe('209.7');
  });
});

describe('McGraw-Hill 2004, Operations Management, technical note 2', () => {
  it('LC-03 90 %, first 100: 100, 90, 84.62, 81.00, 78.30, 76.16', () => {
    const times = [1, 2, 3, 4, 5, 6].map((n) => timeOfNth(d(100), d('0.9'), n).toFixed(2));
    expect(times).toEqual(['100.00', '90.00', '84.62', '81.00', '78.30', '76.16']);
  });
});

describe('Accounting Coach, What is a learning curve? (cumulative average)', () => {
  it('LC-04 80 %, first 100 h: averages 80, 64, 51.2; the second takes 60; eight take 409.6', () => {
    const averages = [2, 4, 8].map((n) => averageOfFirst(d(100), d('0.8'), n).toFixed(6));
    expect(averages).toEqual(['80.000000', '64.000000', '51.200000']);
    expect(timeOfNthByAverage(d(100), d('0.8'), 2).toFixed(6)).toBe('60.000000');
    expect(averageOfFirst(d(100), d('0.8'), 8).times(8).toFixed(6)).toBe('409.600000');
  });
});

describe('M. Wideman, maxwideman.com, appendix 2 (cumulative average)', () => {
  it('LC-05 80 %: two average 80 %, the second is 60 % of the first, four average 64 %', () => {
    expect(averageOfFirst(d(1), d('0.8'), 2).toFixed(6)).toBe('0.800000');
    expect(timeOfNthByAverage(d(1), d('0.8'), 2).toFixed(6)).toBe('0.600000');
    expect(averageOfFirst(d(1), d('0.8'), 4).toFixed(6)).toBe('0.640000');
    expect(timeOfNthByAverage(d(1), d('0.8'), 1).toFixed(6)).toBe('1.000000');
  });
});

describe('unit factors of an 80 % curve (answer derived; agrees with LC-01)', () => {
  it.each([
    [1, '1.0000'],
    [2, '0.8000'],
    [3, '0.7021'],
    [4, '0.6400'],
    [5, '0.5956'],
    [6, '0.5617'],
    [7, '0.5345'],
    [8, '0.5120'],
    [10, '0.4765'],
    [16, '0.4096'],
    [20, '0.3812'],
  ])('LC-09 the %s. takes %s of the first', (n, factor) => {
    expect(timeOfNth(d(1), d('0.8'), n).toFixed(4)).toBe(factor);
  });

  it('LC-09 twenty take 10.4849 times the first', () => {
    expect(timeOfFirst(d(1), d('0.8'), 20).toFixed(4)).toBe('10.4849');
  });
});

describe('a curve that cannot be meant', () => {
  it.each([
    ['0', 2],
    ['1.01', 2],
    ['0.8', 0],
    ['0.8', 1.5],
  ])('rate %s, garment %s', (rate, n) => {
    expect(() => timeOfNth(d(1), d(rate), n)).toThrow(OutOfRange);
  });
});
