import { describe, expect, it } from 'vitest';
import { Money } from '../../../src/domain/kernel/money.js';
import { shareDeposit } from '../../../src/domain/pricing/deposit.js';

const eur = (amount: string) => Money.parse(amount, 'EUR');

describe('constructed: a deposit over three garments', () => {
  it('WS-11 1,503.10 over 1,874.90, 606.90 and 533.30 by largest remainder', () => {
    const parts = shareDeposit(eur('1503.10'), ['1874.90', '606.90', '533.30'].map(eur));
    expect(parts.map(String)).toEqual(['934.68', '302.56', '265.86']);
  });
});
