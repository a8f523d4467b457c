import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { depositOf } from '../../../src/domain/papers/quote/deposit.js';

const eur = (amount: string) => Money.parse(amount, 'EUR');

describe('constructed: a deposit over three garments', () => {
  it('WS-11 1,503.10 over 1,874.90, 606.90 and 533.30 by largest remainder', () => {
    const garments = ['1874.90', '606.90', '533.30'].map((gross) => ({
      gross: eur(gross),
      grossFactor: new Decimal(1),
    }));
    const { parts } = depositOf({ rule: 'amount', amount: eur('1503.10') }, eur('3015.10'), garments);
    expect(parts.map(String)).toEqual(['934.68', '302.56', '265.86']);
  });
});
