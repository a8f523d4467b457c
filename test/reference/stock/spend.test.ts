import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { spendOf } from '../../../src/domain/stock/spend.js';

const d = (number: string | number) => new Decimal(number);
const eur = (amount: string) => Money.parse(amount, 'EUR');
const nothing = { quantity: d(0), cost: eur('0') };
const cloth = {
  name: 'cloth',
  planned: d('5.20'),
  plannedUnitCost: d('46.00'),
  bought: { quantity: d('5.20'), cost: eur('258.44') },
  reserved: d('5.20'),
  issued: nothing,
  returned: nothing,
  wasted: nothing,
};

describe('WS-10 cloth of 5.20 m quoted at 46.00 and bought at 49.70 (constructed)', () => {
  it('is 19.24 dearer while it only lies there', () => {
    const spend = spendOf(cloth, 'EUR');
    expect([spend.priceVariance.toString(), spend.usageVariance]).toEqual(['-19.24', undefined]);
    expect(spend.toIssue.toString()).toBe('5.2');
  });

  it('is 19.24 dearer once it is used', () => {
    const spend = spendOf({ ...cloth, issued: cloth.bought }, 'EUR');
    expect([spend.priceVariance, spend.usageVariance].map(String)).toEqual(['-19.24', '0.00']);
  });
});

describe('material spend', () => {
  it('counts what was issued, less what came back, and what was wasted: price and usage telescope to planned − used', () => {
    const spend = spendOf(
      {
        ...cloth,
        issued: cloth.bought,
        returned: { quantity: d('0.70'), cost: eur('34.79') },
        wasted: { quantity: d('1.00'), cost: eur('49.70') },
      },
      'EUR',
    );
    expect([spend.used.toString(), spend.usedCost.toString()]).toEqual(['5.5', '273.35']);
    expect([spend.priceVariance, spend.usageVariance].map(String)).toEqual(['-20.35', '-13.80']);
    expect(spend.plannedCost.minus(spend.usedCost).toString()).toBe('-34.15');
  });

  it('takes a material nobody planned as usage, all of it', () => {
    const spend = spendOf(
      { ...cloth, planned: d(0), plannedUnitCost: d(0), issued: { quantity: d(2), cost: eur('7.00') } },
      'EUR',
    );
    expect([spend.priceVariance, spend.usageVariance].map(String)).toEqual(['0.00', '-7.00']);
  });
});
