import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { landedCost } from '../../../src/domain/stock/landed-cost.js';
import type { Movement, StockMethod } from '../../../src/domain/stock/movements.js';
import { workOutStock } from '../../../src/domain/stock/work-out-stock.js';

const d = (number: string | number) => new Decimal(number);
const buy = (quantity: number, unitCost: string, lot?: string): Movement => ({
  kind: 'buy',
  lot,
  quantity: d(quantity),
  unitCost: d(unitCost),
});
const issue = (quantity: string | number, lot?: string): Movement => ({
  kind: 'issue',
  lot,
  quantity: d(quantity),
});
const giveBack = (quantity: number, of?: number): Movement => ({ kind: 'return', of, quantity: d(quantity) });
const troubleOf = (method: StockMethod, movements: Movement[]): Invalid => {
  try {
    workOutStock('EUR', method, movements);
  } catch (trouble) {
    if (trouble instanceof Invalid) return trouble;
    throw trouble;
  }
  throw new Error('It was not refused.');
};

describe('stock', () => {
  it('costs by lot the very piece that was cut', () => {
    const stock = workOutStock('EUR', 'lot', [
      buy(10, '40', 'grey'),
      buy(10, '46', 'blue'),
      issue('3.2', 'blue'),
    ]);
    expect(stock.issuedCost.toString()).toBe('147.20');
    expect(stock.lots.map((lot) => `${lot.lot} ${lot.quantity} ${lot.value}`)).toEqual([
      'grey 10 400.00',
      'blue 6.8 312.80',
    ]);
  });

  it('moves the average with each purchase, never rounded before use', () => {
    const stock = workOutStock('EUR', 'weighted-average', [buy(3, '10'), issue(1), buy(1, '11'), issue(1)]);
    expect(stock.issued.map((each) => each.cost.toString())).toEqual(['10.00', '10.33']);
    expect(`${stock.value} ${stock.onHand}`).toBe('20.67 2');
    expect(stock.averageUnitCost?.toFixed()).toBe('10.335');
  });

  it('lets the last issue take the remainder', () => {
    const stock = workOutStock('EUR', 'weighted-average', [buy(3, '3.333'), issue(1), issue(1), issue(1)]);
    expect(stock.issued.map((each) => each.cost.toString())).toEqual(['3.33', '3.34', '3.33']);
    expect([stock.value.toString(), stock.averageUnitCost]).toEqual(['0.00', null]);
  });

  it('takes a return back at the cost it left with, the last taken first', () => {
    const movements = [buy(2, '10'), buy(5, '20'), issue(4), giveBack(3)];
    const stock = workOutStock('EUR', 'first-in-first-out', movements);
    expect(stock.issued.map((each) => `${each.kind} ${each.cost}`)).toEqual(['issue 60.00', 'return -50.00']);
    expect(stock.lots.map((lot) => `${lot.quantity} ${lot.value}`)).toEqual(['1 10.00', '5 100.00']);
  });

  it('takes a return under the moving average at the average it left with', () => {
    const movements = [buy(2, '10'), issue(1), buy(1, '30'), giveBack(1, 1)];
    const stock = workOutStock('EUR', 'weighted-average', movements);
    expect(`${stock.issuedCost} ${stock.value} ${stock.onHand}`).toBe('0.00 50.00 3');
  });

  it('counts waste as an issue', () => {
    const stock = workOutStock('EUR', 'lot', [
      buy(5, '8', 'a'),
      { kind: 'waste', lot: 'a', quantity: d('0.5') },
    ]);
    expect(stock.issued.map((each) => `${each.kind} ${each.cost}`)).toEqual(['waste 4.00']);
  });

  it('keeps two deliveries of one name apart first in, first out', () => {
    const movements = [buy(1, '10', 'thread'), buy(1, '20', 'thread'), issue(1)];
    expect(workOutStock('EUR', 'first-in-first-out', movements).value.toString()).toBe('20.00');
  });

  it('refuses a shortfall with the quantity that is there', () => {
    const trouble = troubleOf('lot', [buy(5, '8', 'a'), buy(5, '8', 'b'), issue('5.1', 'a')]);
    expect([trouble.code, trouble.message, trouble.fields[0]?.field]).toEqual([
      'shortfall',
      'There are 5 here, and 5.1 were asked for.',
      'movements.2.quantity',
    ]);
  });

  it.each<[string, StockMethod, Movement[], string]>([
    [
      'more back than went out',
      'lot',
      [buy(5, '8', 'a'), issue(1, 'a'), giveBack(2)],
      'movements.2.quantity',
    ],
    ['a return of a purchase', 'lot', [buy(5, '8', 'a'), giveBack(1, 0)], 'movements.1.of'],
    [
      'a return that could be of two',
      'lot',
      [buy(5, '8', 'a'), issue(1, 'a'), issue(1, 'a'), giveBack(1)],
      'movements.3.of',
    ],
    ['a lot that is not there', 'lot', [buy(5, '8', 'a'), issue(1, 'b')], 'movements.1.lot'],
    ['no lot named', 'lot', [buy(5, '8', 'a'), issue(1)], 'movements.1.lot'],
    ['one lot bought twice', 'lot', [buy(5, '8', 'a'), buy(5, '9', 'a')], 'movements.1.lot'],
    ['nothing moved', 'lot', [buy(0, '8', 'a')], 'movements.0.quantity'],
    ['a price below nought', 'lot', [buy(1, '-8', 'a')], 'movements.0.unitCost'],
  ])('refuses %s', (_, method, movements, field) => {
    expect(troubleOf(method, movements).fields.map((each) => each.field)).toEqual([field]);
  });
});

describe('landed cost', () => {
  const lines = [
    { quantity: d(2), unitPrice: d('10') },
    { quantity: d(4), unitPrice: d('10') },
    { quantity: d(1), unitPrice: d(0) },
  ];
  const shares = (by: 'value' | 'quantity') =>
    landedCost('EUR', lines, Money.parse('10.00', 'EUR'), by).map((each) => each.share.toString());

  it('is shared by value or by quantity', () => {
    expect(shares('value')).toEqual(['3.33', '6.67', '0.00']);
    expect(shares('quantity')).toEqual(['2.86', '5.71', '1.43']);
  });

  it('names what cannot be meant', () => {
    const nil = [{ quantity: d(1), unitPrice: d(0) }];
    const one = Money.parse('1', 'EUR');
    expect(() => landedCost('EUR', nil, one, 'value')).toThrow('share by quantity');
    expect(() => landedCost('EUR', [], one, 'value')).toThrow(Invalid);
    expect(() => landedCost('EUR', [{ quantity: d(0), unitPrice: d(1) }], one, 'value')).toThrow(Invalid);
    expect(() => landedCost('EUR', lines, one.negated(), 'value')).toThrow(Invalid);
  });
});
