import { describe, expect, it } from 'vitest';
import { variances } from '../../../src/rooms/work-out/variances.js';
import { studioToAsk } from './ask.js';

const { told, refused } = studioToAsk();

const amountOf = (answer: any, kind: string): string[] =>
  answer.variances.filter((each: any) => each.kind === kind).map((each: any) => each.amount);

describe('POST /api/work-out/variances', () => {
  it('twelve hours for ten, one an extra: efficiency −20, extras +30, price 0, profit 100 → 110 (constructed)', async () => {
    const [example] = Object.values(variances.examples);
    const answer = await told('variances', example);
    // agreed plan 600 + 60 = 660 min; (660 − 720) × 20/60 = −20; 50 − 60 × 20/60 = 30; 350 − 300 − 50 = 0
    expect(amountOf(answer, 'labour-efficiency')).toEqual(['-20.00']);
    expect(amountOf(answer, 'labour-rate')).toEqual(['0.00']);
    expect(amountOf(answer, 'extras')).toEqual(['30.00']);
    expect(amountOf(answer, 'price')).toEqual(['0.00']);
    // 300 − 200 = 100; 350 − 240 = 110
    expect([answer.plannedProfit, answer.sum, answer.actualProfit]).toEqual(['100.00', '10.00', '110.00']);
  });

  it.each([
    ['VAR-01', '6.00', '20.00'],
    ['VAR-02', '9.00', '-40.00'],
  ])(
    '%s 20 lb of sugar at %s against 7.00 (Principles of Accounting, Vol. 2, OpenStax 2019, section 8.2)',
    async (_, unitCost, amount) => {
      const sugar = (cost: string) => ({
        materials: [{ name: 'sugar', quantity: 20, unitCost: cost }],
        price: 0,
      });
      const answer = await told('variances', { planned: sugar('7.00'), actual: sugar(unitCost) });
      expect(amountOf(answer, 'material-price')).toEqual([amount]);
    },
  );

  it('VAR-18 overhead of 3,500 for 1,800 h against 2,000 h at 2.00: spending 100, efficiency 400 (OpenStax 2019, section 8.4)', async () => {
    const answer = await told('variances', {
      planned: { overhead: [{ name: 'variable', baseQuantity: 2000, rate: '2.00' }], price: 0 },
      actual: { overhead: [{ name: 'variable', baseQuantity: 1800, amount: '3500.00' }], price: 0 },
    });
    expect(amountOf(answer, 'overhead-spending')).toEqual(['100.00']);
    expect(amountOf(answer, 'overhead-efficiency')).toEqual(['400.00']);
  });

  it('work taken out is an extra of negative minutes', async () => {
    const making = (minutes: number) => [{ name: 'making', mode: 'hand', minutes, perHour: 30 }];
    const answer = await told('variances', {
      planned: { operations: making(120), price: 100 },
      actual: { operations: making(60), price: '80.00' },
      extras: [{ kind: 'charged', price: '-20.00', operations: making(-60) }],
    });
    // −20 − (−30) = 10; price 80 − 100 + 20 = 0; profit 40 → 50
    expect(amountOf(answer, 'extras')).toEqual(['10.00']);
    expect([answer.plannedProfit, answer.actualProfit, answer.sum]).toEqual(['40.00', '50.00', '10.00']);
  });

  it('refuses a line without a rate, negative minutes in a plan, and cents of yen', async () => {
    const line = (more: object) => ({ operations: [{ name: 'a', mode: 'hand', ...more }], price: 0 });
    const good = line({ minutes: 1, perHour: 1 });
    const at = '/planned/operations/0';
    expect(await refused('variances', { planned: line({ minutes: 1 }), actual: good })).toEqual([
      `${at}/perHour`,
    ]);
    const negative = line({ minutes: -1, perHour: 1 });
    expect(await refused('variances', { planned: negative, actual: good })).toEqual([`${at}/minutes`]);
    const yen = line({ minutes: 1, amount: '1.5' });
    expect(await refused('variances', { currency: 'JPY', planned: yen, actual: good })).toEqual([
      `${at}/amount`,
    ]);
    expect(await refused('variances', { planned: good })).toEqual(['/actual']);
    expect(await refused('variances', { planned: { ...good, operations: [null] }, actual: good })).toEqual([
      at,
    ]);
  });
});

describe('POST /api/work-out/earned-value', () => {
  it('half a coat for 660 (constructed): CV −60, SV −100, CPI 600/660, EAC 1,200 × 660 / 600 = 1,320', async () => {
    const body = {
      budgetAtCompletion: 1200,
      plannedValue: '700.00',
      earnedValue: '600.00',
      actualCost: '660.00',
    };
    expect(await told('earned-value', body)).toEqual({
      costVariance: '-60.00',
      scheduleVariance: '-100.00',
      costPerformance: '0.909090909091',
      schedulePerformance: '0.857142857143',
      estimateAtCompletion: '1320.00',
      estimateToComplete: '660.00',
      varianceAtCompletion: '-120.00',
    });
  });

  it('an index that is undefined is null', async () => {
    const body = { budgetAtCompletion: 100, plannedValue: 0, earnedValue: 0, actualCost: 0 };
    expect(await told('earned-value', body)).toMatchObject({
      costPerformance: null,
      schedulePerformance: null,
      estimateAtCompletion: null,
    });
    const undated = await told('earned-value', { budgetAtCompletion: 100, earnedValue: 50, actualCost: 40 });
    expect([undated.scheduleVariance, undated.schedulePerformance]).toEqual([null, null]);
  });

  it('refuses amounts below 0 and those that are missing', async () => {
    expect(
      await refused('earned-value', { budgetAtCompletion: -1, earnedValue: '1', plannedValue: 'x' }),
    ).toEqual(['/budgetAtCompletion', '/plannedValue', '/actualCost']);
  });
});

describe('POST /api/work-out/landed-cost', () => {
  it('WS-18 9.00 of carriage on 30.00 and 60.00 by value: 33.00 and 66.00 (method: passonhandmade.blogspot.com, July 2010)', async () => {
    const lines = [
      { quantity: 1, unitPrice: '30.00' },
      { quantity: 1, unitPrice: '60.00' },
    ];
    const { lines: landed } = await told('landed-cost', { lines, shared: '9.00', by: 'value' });
    expect(landed.map((each: any) => [each.share, each.landedTotal, each.landedUnitCost])).toEqual([
      ['3.00', '33.00', '33.00'],
      ['6.00', '66.00', '66.00'],
    ]);
  });

  it('INV-10 30 at 80 and 1,000 of freight: 3,400, 113.33 each (Principles of Accounting, Vol. 1, OpenStax 2019)', async () => {
    const { lines } = await told('landed-cost', { lines: [{ quantity: 30, unitPrice: 80 }], shared: 1000 });
    expect([lines[0].landedTotal, lines[0].landedUnitCost]).toEqual(['3400.00', '113.333333333333']);
  });

  it('INV-13 230 over 20 × 20 and 20 × 5: 184 and 46 (allinterview.com, question 112970, secondary)', async () => {
    const lines = [
      { quantity: '20', unitPrice: '20.00' },
      { quantity: '20', unitPrice: '5.00' },
    ];
    const { lines: landed } = await told('landed-cost', { lines, shared: '230.00', by: 'value' });
    expect(landed.map((each: any) => [each.share, each.landedUnitCost])).toEqual([
      ['184.00', '29.20'],
      ['46.00', '7.30'],
    ]);
  });

  it('shares by quantity where goods were a gift, and the parts add up', async () => {
    const lines = [1, 1, 1].map((quantity) => ({ quantity, unitPrice: 0 }));
    expect(await refused('landed-cost', { lines, shared: '1.00', by: 'value' })).toEqual(['/by']);
    const { lines: landed } = await told('landed-cost', { lines, shared: '1.00', by: 'quantity' });
    expect(landed.map((each: any) => each.share)).toEqual(['0.34', '0.33', '0.33']);
  });

  it('refuses nothing bought and a quantity of 0', async () => {
    expect(await refused('landed-cost', { lines: [], shared: 1 })).toEqual(['/lines']);
    expect(await refused('landed-cost', { lines: [{ quantity: 0, unitPrice: 1 }], shared: 1 })).toEqual([
      '/lines/0/quantity',
    ]);
  });
});
