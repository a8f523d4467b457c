/**
 * Source: Principles of Accounting, Vol. 1: Financial Accounting (OpenStax, Rice University, 2019), sections 10.1 to
 * 10.3. Last in, first out is not offered: IAS 2, paragraph 25, does not permit it.
 */
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { profitOf } from '../../../src/domain/pricing/margin.js';
import type { Movement } from '../../../src/domain/stock/movements.js';
import { workOutStock } from '../../../src/domain/stock/work-out-stock.js';

const d = (number: string | number) => new Decimal(number);
const usd = (amount: number) => Money.rounded(d(amount), 'USD');
const buy = (quantity: number, unitCost: number, lot?: string): Movement => ({
  kind: 'buy',
  lot,
  quantity: d(quantity),
  unitCost: d(unitCost),
});
const issue = (quantity: number, lot?: string): Movement => ({ kind: 'issue', lot, quantity: d(quantity) });

const AS_IT_HAPPENED = [buy(150, 21), issue(120), buy(225, 27), issue(180), buy(210, 33)];
const AT_THE_END = [buy(150, 21), buy(225, 27), buy(210, 33), issue(120), issue(180)];

describe('Principles of Accounting, Vol. 1 (OpenStax, 2019), sections 10.1 to 10.3, one set of figures', () => {
  it.each([
    ['perpetual', AS_IT_HAPPENED],
    ['periodic', AT_THE_END],
  ])('INV-02 first in, first out, %s: 7,200 sold, 8,955 left', (_, movements) => {
    const stock = workOutStock('USD', 'first-in-first-out', movements);
    expect(`${stock.issuedCost} ${stock.value} ${stock.onHand}`).toBe('7200.00 8955.00 285');
    expect(profitOf(usd(11_340), stock.issuedCost).profit.toString()).toBe('4140.00');
  });

  it('INV-05 weighted average, periodic, unrounded: 8,284.62 and 7,870.38 (the book rounds the unit to 27.62: 8,283 and 7,872)', () => {
    const bought = workOutStock('USD', 'weighted-average', AT_THE_END.slice(0, 3));
    expect(bought.averageUnitCost?.toFixed(4)).toBe('27.6154');
    const stock = workOutStock('USD', 'weighted-average', AT_THE_END);
    expect(`${stock.issuedCost} ${stock.value}`).toBe('8284.62 7870.38');
  });

  it.each([
    ['by lot', 'lot', 'second', '9.00'],
    ['first in, first out', 'first-in-first-out', undefined, '15.00'],
    ['average', 'weighted-average', undefined, '8.38'],
  ] as const)('one unit of all three sold at 36 (section 10.1), %s', (_, method, lot, margin) => {
    const movements = [buy(150, 21, 'first'), buy(225, 27, 'second'), buy(210, 33, 'third'), issue(1, lot)];
    const { issuedCost } = workOutStock('USD', method, movements);
    expect(profitOf(usd(36), issuedCost).profit.toString()).toBe(margin);
  });

  it('INV-07 70 available at 7, 18 left: 52 sold for 364, 126 left', () => {
    const available = workOutStock('USD', 'weighted-average', [buy(50, 7), buy(20, 7)]);
    expect(available.value.toString()).toBe('490.00');
    const stock = workOutStock('USD', 'weighted-average', [buy(50, 7), buy(20, 7), issue(52)]);
    expect(`${stock.issuedCost} ${stock.value} ${stock.onHand}`).toBe('364.00 126.00 18');
  });

  it('INV-09 exercise “Akira” (section 10.2; answer derived): 750 and 4,620, or an average of 12.204545 and 610.23', () => {
    const movements = [buy(150, 10), buy(160, 12), buy(130, 15), issue(390)];
    const first = workOutStock('USD', 'first-in-first-out', movements);
    expect(`${first.value} ${first.issuedCost}`).toBe('750.00 4620.00');
    const before = workOutStock('USD', 'weighted-average', movements.slice(0, 3));
    expect(before.averageUnitCost?.toFixed(6)).toBe('12.204545');
    expect(workOutStock('USD', 'weighted-average', movements).value.toString()).toBe('610.23');
  });
});
