import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { METRES_PER_YARD } from '../../../src/domain/kernel/quantity.js';
import { lengthAtWidth } from '../../../src/domain/stock/cloth-width.js';
import { extraForRepeat, lengthForPieces, upToStep } from '../../../src/domain/stock/need/cloth-need.js';
import { needByChart } from '../../../src/domain/stock/need/width-chart.js';

const d = (number: string | number) => new Decimal(number);

/**
 * Source: fabric conversion chart, Rutgers Cooperative Extension (attribution from memory), as printed by sewwithsarah.com and,
 * independently, greenspun.com (board 008fgB); a copy at findfulfillflourish agrees.
 */
describe('the published width chart', () => {
  it.each([
    ['FB-01', 1.75, 36, 60, 1],
    ['FB-02', 1.375, 54, 36, 2],
    ['FB-03', 2.875, 54, 60, 2.75],
    ['FB-04', 2, 60, 45, 2.75],
  ])('%s %d yd at %d″ is %d″: %d yd by the grid', (_, yards, width, other, expected) => {
    const need = needByChart(d(yards), d(width), d(other));
    // The chart's note adds a quarter for a large difference of width; the grid itself is what the check value gives.
    expect(need.yards.minus(need.withQuarter ? 0.25 : 0).toNumber()).toBe(expected);
  });

  it('adds the printed quarter yard for a large difference, or where it is asked for', () => {
    expect(needByChart(d('1.75'), d(36), d(60)).withQuarter).toBe(true);
    const near = needByChart(d('2.875'), d(54), d(60));
    expect([near.withQuarter, near.yards.toNumber()]).toEqual([false, 2.75]);
    expect(needByChart(d('2.875'), d(54), d(60), true).yards.toNumber()).toBe(3);
  });

  it('is no scaling by area: FB-02 by area would be 2.0625, and FB-01 1.05', () => {
    expect(lengthAtWidth(d('1.375'), d(54), d(36)).toNumber()).toBe(2.0625);
    expect(lengthAtWidth(d('1.75'), d(36), d(60)).toNumber()).toBe(1.05);
  });

  it('reads between two rows by the longer, between two widths by the safer', () => {
    expect(needByChart(d('1.8'), d(36), d(39)).yards.toNumber()).toBe(1.75);
    expect(needByChart(d(2), d(36), d(57)).to).toBe('52–54″');
  });

  it.each([
    [d(2), d(30), d(45)],
    [d(2), d(45), d(70)],
    [d(6), d(36), d(45)],
    [d(0), d(36), d(45)],
  ])('refuses what it does not hold', (yards, width, other) => {
    expect(() => needByChart(yards, width, other)).toThrow(/chart/);
  });
});

describe('layout arithmetic', () => {
  it('FB-05 two lengths of 49″ are 98″ = 2.72 yd, cut as 2 3/4 (webpages.charter.net/lara_the_lacemaker/altgoreskirt1)', () => {
    const yards = lengthForPieces(4, d(49), d(22), d(45)).div(36);
    expect(yards.toFixed(2)).toBe('2.72');
    expect(upToStep(yards, d('0.25')).toNumber()).toBe(2.75);
  });

  it('FB-06 (32 + 20) × 2 + 12 = 116″ = 3.22 yd, bought as 3 1/2 (sewchicpatterns.blogspot.com, May 2010)', () => {
    const yards = d(116).div(36);
    expect(yards.toFixed(2)).toBe('3.22');
    expect(upToStep(yards, d('0.5')).toNumber()).toBe(3.5);
  });

  it('FB-07 two stacked pieces at a repeat of 1 1/4″ and 4 1/4″: 2 1/2″ and 8 1/2″ (galafabrics.blogspot.com, Nov 2010)', () => {
    expect(extraForRepeat(d('1.25'), 2).toNumber()).toBe(2.5);
    expect(extraForRepeat(d('4.25'), 2).toNumber()).toBe(8.5);
  });

  it('FB-10 pieces in a row, rows, length (method of nofly90.com; figures constructed)', () => {
    expect(lengthForPieces(7, d(20), d(14), d(45)).toNumber()).toBe(60);
    expect(() => lengthForPieces(1, d(20), d(46), d(45))).toThrow('wider than the cloth');
  });

  it('FB-11 a yard is 0.9144 m, exactly (international yard and pound agreement, 1959)', () => {
    expect(METRES_PER_YARD.toString()).toBe('0.9144');
  });
});
