import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import {
  differenceByCause,
  noParts,
  type PriceParts,
} from '../../../src/domain/papers/quote/quote-difference.js';
import { euro } from './quillmere.js';

const then: PriceParts = {
  net: euro('1000.00'),
  time: euro('600.00'),
  minutes: new Decimal(1800),
  materials: euro('250.00'),
  expenses: euro('12.00'),
};

describe('a price then and now', () => {
  it('is told apart by hours, rates and materials', () => {
    // 1980 minutes at the earlier 20.00 an hour are 660.00; at today's 22.00 they are 726.00.
    const now = {
      ...then,
      net: euro('1200.00'),
      time: euro('726.00'),
      minutes: new Decimal(1980),
      materials: euro('275.00'),
    };
    const { hours, rates, materials, expenses, onTop, whole } = differenceByCause(then, now);
    expect([hours, rates, materials, expenses, onTop, whole].map(String)).toEqual([
      '60.00',
      '66.00',
      '25.00',
      '0.00',
      '49.00',
      '200.00',
    ]);
  });

  it('counts all time as hours where there was none', () => {
    const { hours, rates, whole } = differenceByCause(noParts('EUR'), then);
    expect([hours, rates, whole].map(String)).toEqual(['600.00', '0.00', '1000.00']);
  });

  it('adds up exactly whatever changed', () => {
    const minor = fc.integer({ min: 0, max: 10_000_000 }).map((amount) => Money.ofMinor(amount, 'EUR'));
    const parts = fc.record({
      net: minor,
      time: minor,
      minutes: fc.integer({ min: 0, max: 50_000 }).map((minutes) => new Decimal(minutes)),
      materials: minor,
      expenses: minor,
    });
    fc.assert(
      fc.property(parts, parts, (before, after) => {
        const { whole, ...causes } = differenceByCause(before, after);
        expect(Money.sum(Object.values(causes), 'EUR').minor).toBe(whole.minor);
        expect(whole.minor).toBe(after.net.minor - before.net.minor);
      }),
    );
  });
});
