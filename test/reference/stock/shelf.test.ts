/**
 * The shelf that the cloth room stands on, by the same published figures as the stock question.
 * Source: Principles of Accounting, Vol. 1: Financial Accounting (OpenStax, Rice University, 2019), sections 10.1 to 10.3.
 */
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { StockMethod } from '../../../src/domain/stock/movements.js';
import {
  atAverage,
  notEnough,
  partOfIssue,
  putOnShelf,
  takeOffShelf,
} from '../../../src/domain/stock/shelf.js';
import type { StockLot } from '../../../src/domain/stock/stock-lot.js';

const d = (number: string | number) => new Decimal(number);
const lot = (name: string, quantity: number, unit: number): StockLot => ({
  lot: name,
  quantity: d(quantity),
  value: Money.rounded(d(quantity).times(unit), 'USD'),
});
const ALL = [lot('first', 150, 21), lot('second', 225, 27), lot('third', 210, 33)];
const worth = (lots: readonly { value: Money }[]) =>
  Money.sum(
    lots.map(({ value }) => value),
    'USD',
  ).toString();
const cost = (moved: readonly { cost: Money }[]) => worth(moved.map((one) => ({ value: one.cost })));
const take = (method: StockMethod, quantity: number, name?: string, lots: readonly StockLot[] = ALL) =>
  takeOffShelf(lots, method, d(quantity), 'USD', { lot: name, unit: 'm' });

describe('Principles of Accounting, Vol. 1 (OpenStax, 2019), on the shelf', () => {
  it('INV-02 first in, first out, 300 of 585: 7,200 out, 8,955 left', () => {
    const { moved, after } = take('first-in-first-out', 300);
    expect([cost(moved), worth(after)]).toEqual(['7200.00', '8955.00']);
  });

  it('INV-05 weighted average, unrounded: 8,284.62 out, 7,870.38 left, spread over the lots', () => {
    const { moved, after } = take('weighted-average', 300);
    expect([cost(moved), worth(after)]).toEqual(['8284.62', '7870.38']);
    const unit = d('16155').div(585);
    for (const one of after.filter(({ quantity }) => quantity.gt(0)))
      expect(one.value.toDecimal().minus(one.quantity.times(unit)).abs().lte('0.01')).toBe(true);
  });

  it.each([
    ['lot', 'second', '27.00'],
    ['first-in-first-out', undefined, '21.00'],
    ['weighted-average', undefined, '27.62'],
    ['weighted-average', 'third', '27.62'],
  ] as const)('one unit, %s %s: %s', (method, name, expected) => {
    expect(cost(take(method, 1, name).moved)).toBe(expected);
  });

  it('INV-09 exercise “Akira” (answer derived): 390 of 440 leave 750, or 610.23 at the average', () => {
    const lots = [lot('a', 150, 10), lot('b', 160, 12), lot('c', 130, 15)];
    expect(worth(take('first-in-first-out', 390, undefined, lots).after)).toBe('750.00');
    expect(worth(take('weighted-average', 390, undefined, lots).after)).toBe('610.23');
  });
});

describe('the shelf', () => {
  it('never goes below nought, and says what is there and what to do', () => {
    expect(() => take('first-in-first-out', 586)).toThrow('There are 585 m here, and 586 m were asked for.');
    expect(notEnough(new Decimal(15), new Decimal(14), 'piece').message).toContain(
      'There are 14 pieces here, and 15 pieces were asked for.',
    );
    expect(notEnough(new Decimal(1), new Decimal('0.5'), 'm').message).toContain(
      '0.5 m here, and 1 m was asked',
    );
    expect(notEnough(new Decimal(2), new Decimal(1), 'pair').message).toContain(
      'There is 1 pair here, and 2 pairs were asked for.',
    );
    expect(() => take('lot', 151, 'first')).toThrow('measured again');
    expect(() => take('weighted-average', 586)).toThrow('585');
    expect(() => take('weighted-average', 0)).toThrow('above 0');
  });

  it('wants the piece named where the very piece counts, and not where the oldest goes first', () => {
    expect(() => take('lot', 1)).toThrow('which piece');
    expect(() => take('first-in-first-out', 1, 'second')).toThrow('leave the piece open');
  });

  it('gives back the last piece first, at the cost it left with, and no more than is out', () => {
    const { moved, after } = take('first-in-first-out', 200);
    const back = partOfIssue(moved, d(60));
    expect(back.map(({ lot: name, quantity, cost: one }) => `${name} ${quantity} ${one}`)).toEqual([
      'second 50 1350.00',
      'first 10 210.00',
    ]);
    expect(worth(putOnShelf(after, back))).toBe('13215.00');
    expect(() => partOfIssue(moved, d(201))).toThrow('Only 200');
  });

  it('keeps lots that flow together at one average, to the minor unit', () => {
    const spread = atAverage([lot('a', 1, 1), lot('b', 2, 0), lot('c', 0, 0)], 'USD');
    expect(spread.map(({ value }) => value.toString())).toEqual(['0.33', '0.67', '0.00']);
  });
});
