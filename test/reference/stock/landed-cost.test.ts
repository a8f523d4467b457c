import { describe, expect, it } from 'vitest';
import { drawUpCostSheet } from '../../../src/domain/costing/cost-sheet.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { salesOf } from '../../../src/domain/pricing/cost-volume-profit.js';
import { landedCost } from '../../../src/domain/stock/landed-cost.js';

const d = (number: string | number) => new Decimal(number);
const usd = (amount: number) => Money.rounded(d(amount), 'USD');
const line = (quantity: number, unitPrice: number) => ({ quantity: d(quantity), unitPrice: d(unitPrice) });

describe('Principles of Accounting, Vol. 1 (OpenStax, 2019), freight (modules m67865, m67871)', () => {
  it('INV-10 30 at 80 and freight-in of 1,000: 3,400 in stock, 113.33 each (unit cost derived)', () => {
    const [landed] = landedCost('USD', [line(30, 80)], usd(1_000), 'value');
    expect(landed?.landedTotal.toString()).toBe('3400.00');
    expect(landed?.landedUnitCost.toFixed(2)).toBe('113.33');
  });

  it('INV-11 freight-out of 120 is an expense, not stock: sales 4,500, goods 1,800', () => {
    const sheet = drawUpCostSheet({
      currency: 'USD',
      labour: { perHour: d(0) },
      materials: [{ name: 'goods', quantity: d(30), unitCost: d(60) }],
      expenses: [{ name: 'delivery', amount: usd(120) }],
    });
    expect(`${sheet.materials} ${sheet.expenses}`).toBe('1800.00 120.00');
    expect(salesOf({ price: usd(150), variableCost: usd(60) }, d(30)).toString()).toBe('4500.00');
  });
});

describe('allinterview.com, question 112970, other costs by value (secondary)', () => {
  it('INV-13 230 over 20 at 20 and 20 at 5: 184 and 46, so 29.20 and 7.30 each (unit costs derived)', () => {
    const landed = landedCost('USD', [line(20, 20), line(20, 5)], usd(230), 'value');
    expect(landed.map((each) => each.share.toString())).toEqual(['184.00', '46.00']);
    expect(landed.map((each) => each.landedUnitCost.toFixed(2))).toEqual(['29.20', '7.30']);
  });
});

describe('passonhandmade.blogspot.com, July 2010, carriage by value (method published, figures constructed)', () => {
  it('WS-18 9.00 on 30.00 and 60.00: 33.00 and 66.00 landed', () => {
    const landed = landedCost('USD', [line(1, 30), line(1, 60)], usd(9), 'value');
    expect(landed.map((each) => each.landedTotal.toString())).toEqual(['33.00', '66.00']);
  });
});
