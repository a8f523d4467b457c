/**
 * Source of every check here unless it says otherwise: Principles of Accounting, Vol. 2: Managerial Accounting
 * (OpenStax, Rice University, 2019), sections 4.4 to 4.6 and 6.1. Numbers only; computed by the house's own functions.
 */
import { describe, expect, it } from 'vitest';
import type { CostSheetInput } from '../../../src/domain/costing/cost-lines.js';
import { drawUpCostSheet } from '../../../src/domain/costing/cost-sheet.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { contribution } from '../../../src/domain/pricing/cost-volume-profit.js';
import { profitOf } from '../../../src/domain/pricing/margin.js';
import { absorbed, absorptionOf, predeterminedRate } from '../../../src/domain/rates/overhead-rate.js';
import { workOutStock } from '../../../src/domain/stock/work-out-stock.js';

const d = (number: string | number) => new Decimal(number);
const usd = (amount: number) => Money.rounded(d(amount), 'USD');
const sum = (...amounts: number[]) => Money.sum(amounts.map(usd), 'USD');

/** A job with so much material and labour, and overhead at 2.50 for each unit of labour cost. */
const aJob = (material: number, labour: number, rate = '2.5', opening = 0): CostSheetInput => ({
  currency: 'USD',
  labour: { perHour: d(labour) },
  overhead: [{ name: 'overhead', base: 'labour-cost', rate: d(rate) }],
  operations: [{ name: 'labour', mode: 'hand', minutes: d(60) }],
  materials: [{ name: 'material', quantity: d(1), unitCost: d(material) }],
  expenses: opening ? [{ name: 'work in progress, opening', amount: usd(opening) }] : [],
});
const POR143 = () => drawUpCostSheet(aJob(200, 150, '2.5', 1000));
const TRJ441 = () => drawUpCostSheet(aJob(500, 150));
const MAC001 = () =>
  drawUpCostSheet({
    currency: 'USD',
    labour: { perHour: d(0), perHourByMode: { handler: d(15), technician: d(15), assistant: d(18) } },
    overhead: [{ name: 'overhead', base: 'labour-cost', rate: d('2.5') }],
    operations: [
      { name: 'handling', mode: 'handler', minutes: d(60) },
      { name: 'printing', mode: 'technician', minutes: d(60) },
      { name: 'assisting', mode: 'assistant', minutes: d(120) },
    ],
    materials: [
      ['vinyl', 1, 300],
      ['black ink', 2, 50],
      ['red ink', 1, 60],
      ['gold ink', 1, 60],
      ['grommets', 12, 10],
      ['framing wood', 40, 1.5],
    ].map(([name, quantity, unitCost]) => ({
      name: `${name}`,
      quantity: d(quantity ?? 0),
      unitCost: d(unitCost ?? 0),
    })),
  });

describe('Principles of Accounting, Vol. 2 (OpenStax, 2019), section 4.4', () => {
  it('JC-01 overhead of 250,000 over 100,000 of labour cost is 2.50', () => {
    const budget = sum(5_000, 20_000, 75_000, 90_000, 35_000, 25_000);
    expect(budget.toString()).toBe('250000.00');
    expect(predeterminedRate(budget, d(100_000)).toFixed(2)).toBe('2.50');
  });

  it('JC-02 labour of 66 takes up 165', () => {
    expect(absorbed(d('2.5'), d(66), 'USD').toString()).toBe('165.00');
  });

  it('JC-26 one budget by three bases (exercise fs-idm228358912; answer derived)', () => {
    const rates = [60_000, 1_500_000, 100_000].map((each) => predeterminedRate(usd(750_000), d(each)));
    expect(rates.map((rate) => rate.toFixed(2))).toEqual(['12.50', '0.50', '7.50']);
  });

  it('JC-27 three jobs at 1.25 of labour cost (exercise fs-idm240280688; answer derived)', () => {
    const jobs = [aJob(7560, 3760, '1.25'), aJob(1525, 3824, '1.25'), aJob(3290, 3796, '1.25')];
    expect(jobs.map((job) => drawUpCostSheet(job).cost.toString())).toEqual([
      '16020.00',
      '10129.00',
      '11831.00',
    ]);
  });
});

describe('Principles of Accounting, Vol. 2 (OpenStax, 2019), section 4.5', () => {
  it('JC-03 job cost sheet MAC001: 700 + 66 + 165 = 931 (the figure’s alt text misprints the rate); profit 1,069 (derived)', () => {
    const sheet = MAC001();
    expect(`${sheet.materials} ${sheet.labour} ${sheet.overhead} ${sheet.cost}`).toBe(
      '700.00 66.00 165.00 931.00',
    );
    expect(profitOf(usd(2000), sheet.cost).profit.toString()).toBe('1069.00');
  });

  it('JC-04 job POR143: 725 added to 1,000 in progress', () => {
    const sheet = POR143();
    expect(sheet.overhead.toString()).toBe('375.00');
    expect(sheet.cost.minus(sheet.expenses).toString()).toBe('725.00');
    expect(sheet.cost.toString()).toBe('1725.00');
  });

  it('JC-29 73,100 over the hours in 36,550 of labour at 17 (exercise fs-idm372366240; answer derived)', () => {
    const hours = d(36_550).div(17);
    expect(hours.toFixed()).toBe('2150');
    expect(predeterminedRate(usd(73_100), hours).toFixed(2)).toBe('34.00');
  });
});

describe('Principles of Accounting, Vol. 2 (OpenStax, 2019), section 4.6', () => {
  it('JC-06 material used: 2,500 + 10,500 − 11,600 = 1,400', () => {
    const move = (kind: 'issue', quantity: number) => ({ kind, quantity: d(quantity) }) as const;
    const stock = workOutStock('USD', 'first-in-first-out', [
      { kind: 'buy', quantity: d(2_500), unitCost: d(1) },
      { kind: 'buy', quantity: d(10_500), unitCost: d(1) },
      move('issue', 200),
      move('issue', 700),
      move('issue', 500),
    ]);
    expect(`${stock.issuedCost} ${stock.value}`).toBe('1400.00 11600.00');
  });

  it('JC-07 three jobs: 3,681 incurred, 2,656 finished', () => {
    const jobs = [POR143(), MAC001(), TRJ441()].map((sheet) => sheet.cost);
    expect(Money.sum(jobs, 'USD').toString()).toBe('3681.00');
    expect(Money.sum(jobs.slice(0, 2), 'USD').toString()).toBe('2656.00');
  });

  it('JC-08 cost of goods sold 2,462: 1,531 in stock + 2,656 finished − 1,725 left', () => {
    const finished = POR143().cost.plus(MAC001().cost);
    expect(usd(1_531).plus(finished).minus(POR143().cost).toString()).toBe('2462.00');
  });

  it('JC-09 all four jobs: 2,531 + 1,400 + 366 + 915 = 5,212', () => {
    const all = [POR143(), MAC001(), TRJ441()];
    const section = (pick: (sheet: (typeof all)[number]) => Money) =>
      Money.sum(all.map(pick), 'USD').toString();
    expect([section((s) => s.materials), section((s) => s.labour), section((s) => s.overhead)]).toEqual([
      '1400.00',
      '366.00',
      '915.00',
    ]);
    expect(Money.sum([usd(1_531), ...all.map((s) => s.cost)], 'USD').toString()).toBe('5212.00');
  });

  it.each([
    ['JC-10', '2.5', 100_000, 256_500, '-6500.00', 'under-absorbed'],
    ['JC-11', '2.5', 100_000, 248_000, '2000.00', 'over-absorbed'],
    ['JC-30 (answer derived)', '3.50', 24_100, 90_000, '-5650.00', 'under-absorbed'],
    ['JC-32 (answer derived)', '4', 26_000, 102_000, '2000.00', 'over-absorbed'],
    ['JC-34 (answer derived)', '3', 24_000, 74_000, '-2000.00', 'under-absorbed'],
  ])('%s overhead taken up against overhead incurred', (_, rate, base, incurred, difference, verdict) => {
    const absorption = absorptionOf(d(rate), d(base), usd(incurred));
    expect(absorption.difference.toString()).toBe(difference);
    expect(absorption.verdict).toBe(verdict);
  });

  it.each([
    ['JC-30', 85_000, 24_286, '3.50'],
    ['JC-32', 100_000, 25_000, '4.00'],
    ['JC-34', 75_000, 25_000, '3.00'],
  ])('%s predetermined rate (answer derived)', (_, budget, base, rate) => {
    expect(predeterminedRate(usd(budget), d(base)).toFixed(2)).toBe(rate);
  });
});

describe('Principles of Accounting, Vol. 2 (OpenStax, 2019), section 6.1', () => {
  it('JC-14 2,500,000 over 1,250,000 hours is 2.00', () => {
    expect(predeterminedRate(usd(2_500_000), d(1_250_000)).toFixed(2)).toBe('2.00');
  });

  const PRODUCTS = [
    { price: 20, units: 150_000, cost: 2_775_000, each: '1.50', all: '225000.00' },
    { price: 25, units: 110_000, cost: 1_842_500, each: '8.25', all: '907500.00' },
    { price: 30, units: 200_000, cost: 4_000_000, each: '10.00', all: '2000000.00' },
  ];

  it.each(PRODUCTS)('JC-17 gross profit of one at $price is $each', ({ price, units, cost, each }) => {
    const garment = { price: usd(price), variableCost: usd(cost / units) };
    expect(contribution(garment).toString()).toBe(each);
  });

  it('JC-18 gross profit of all three is 3,132,500', () => {
    const profits = PRODUCTS.map(({ price, units, cost }) => profitOf(usd(price * units), usd(cost)).profit);
    expect(profits.map(String)).toEqual(PRODUCTS.map((product) => product.all));
    expect(Money.sum(profits, 'USD').toString()).toBe('3132500.00');
  });

  it('JC-19 560,000 over 160,000 hours: 157,500 to the one with 45,000 (exercise fs-idm362198592)', () => {
    const rate = predeterminedRate(usd(560_000), d(45_000 + 115_000));
    expect(rate.toFixed(2)).toBe('3.50');
    expect(absorbed(rate, d(45_000), 'USD').toString()).toBe('157500.00');
  });
});

describe('tutorsglobe.com, Hill Manufacturing departmental rates (secondary)', () => {
  it('JC-25 a job through two departments costs 6,505 (answer derived)', () => {
    const department = (
      mode: string,
      hours: number,
      labour: number,
      material: number,
      base: 'machine-hours' | 'productive-hours',
      rate: Decimal,
    ) =>
      drawUpCostSheet({
        currency: 'USD',
        labour: { perHour: d(labour).div(hours) },
        overhead: [{ name: mode, base, rate }],
        operations: [{ name: mode, mode, minutes: d(hours * 60) }],
        materials: [{ name: 'material', quantity: d(1), unitCost: d(material) }],
      });
    const machining = predeterminedRate(usd(250_000), d(100_000));
    const assembly = predeterminedRate(usd(360_000), d(90_000));
    expect([machining.toFixed(2), assembly.toFixed(2)]).toEqual(['2.50', '4.00']);
    const first = department('machine', 170, 400, 2700, 'machine-hours', machining);
    const second = department('hand', 120, 900, 1600, 'productive-hours', assembly);
    expect(first.overhead.plus(second.overhead).toString()).toBe('905.00');
    expect(first.cost.plus(second.cost).toString()).toBe('6505.00');
  });
});
