import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { owedInAll, supplierCredit } from '../../../src/domain/money-out/supplier-credit.js';

const eur = (amount: string) => Money.parse(amount, 'EUR');
const billed = (goods: string, tax: string, freight = '0', duty = '0') => ({
  goods: eur(goods),
  freight: eur(freight),
  duty: eur(duty),
  tax: eur(tax),
});
const back = (unitPrice: string, quantity: string) => ({
  unitPrice: new Decimal(unitPrice),
  quantity: new Decimal(quantity),
});

describe('what a supplier owes for goods sent back', () => {
  // Reckoned by hand from the formula; common practice, no source for the amounts.
  it('is their price and the tax on it', () => {
    // 1 m of 2 m at 50, taxed 21: 50 + 10.50.
    expect(supplierCredit([back('50', '1')], billed('100', '21')).toString()).toBe('60.50');
    expect(supplierCredit([back('50', '2')], billed('100', '21')).toString()).toBe('121.00');
  });

  it('leaves freight and duty, and the tax on them, with the studio', () => {
    // 20 % on 100 + 8 + 2; of it 20 lies on the goods.
    expect(supplierCredit([back('100', '1')], billed('100', '22', '8', '2')).toString()).toBe('120.00');
  });

  it('rounds once, half away from nought', () => {
    // 1.1 × 4.55 = 5.005 and its tax of 1.001 are 6.006; each rounded alone would be 5.01 + 1.00.
    expect(supplierCredit([back('4.55', '1.1')], billed('100', '20')).toString()).toBe('6.01');
    // 0.305 + 0.061 = 0.366; goods and tax rounded apart would be 0.31 + 0.06.
    expect(supplierCredit([back('0.61', '0.5')], billed('100', '20')).toString()).toBe('0.37');
    // 0.022 + 0.0044 twice is 0.0528: 0.05, and rounded apart 0.03 + 0.03.
    expect(supplierCredit([back('0.022', '1'), back('0.022', '1')], billed('100', '20')).toString()).toBe(
      '0.05',
    );
    expect(supplierCredit([back('0.005', '1')], billed('1', '0')).toString()).toBe('0.01');
  });

  it('is nought for a gift', () => {
    expect(supplierCredit([back('0', '3')], billed('0', '0')).isZero()).toBe(true);
    expect(supplierCredit([], billed('10', '2')).isZero()).toBe(true);
  });
});

describe('what is owed to each', () => {
  it('takes credits off, by who it is and not by name', () => {
    const owed = [
      { toId: 'a', to: 'Hollow Mill', amount: eur('121') },
      { toId: 'b', to: 'Hollow Mill', amount: eur('10') },
      { toId: 'a', to: 'Hollow Mill', amount: eur('-60.50') },
      { toId: 'b', to: 'Hollow Mill', amount: eur('-12') },
    ];
    expect(owedInAll(owed).map(({ toId, amount }) => [toId, amount.toString()])).toEqual([
      ['a', '60.50'],
      ['b', '-2.00'],
    ]);
    expect(owedInAll([])).toEqual([]);
  });
});
