import { describe, expect, it } from 'vitest';
import {
  type AgreedExtra,
  type PricedWork,
  type VarianceKind,
  type Variances,
  variancesOf,
} from '../../../src/domain/costing/variances.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';

const d = (number: string | number) => new Decimal(number);
const eur = (amount: string) => Money.parse(amount, 'EUR');
const sewing = (minutes: number, price: string, perHour = '20', name = 'sewing'): PricedWork => ({
  operations: [{ name, mode: 'hand', minutes: d(minutes), perHour: d(perHour) }],
  price: eur(price),
});
const amountOf = ({ variances }: Variances, kind: VarianceKind) =>
  Money.sum(
    variances.filter((each) => each.kind === kind).map((each) => each.amount),
    'EUR',
  ).toString();
const bridge = (all: Variances) => `${all.plannedProfit} + ${all.sum} = ${all.actualProfit}`;

describe('planned against actual', () => {
  it('tells a charged extra from a slow hand', () => {
    const { operations } = sewing(60, '0');
    const extra: AgreedExtra = { kind: 'charged', price: eur('50'), operations };
    const all = variancesOf('EUR', sewing(600, '300'), sewing(720, '350'), [extra]);
    expect(
      ['labour-efficiency', 'labour-rate', 'extras', 'price'].map((k) => amountOf(all, k as VarianceKind)),
    ).toEqual(['-20.00', '0.00', '30.00', '0.00']);
    expect(bridge(all)).toBe('100.00 + 10.00 = 110.00');
  });

  it('counts an unplanned operation as efficiency at its own rate', () => {
    const all = variancesOf('EUR', sewing(600, '300'), sewing(60, '300', '25', 'inside pocket'));
    const of = (name: string) =>
      all.variances.filter((each) => each.name === name).map((each) => `${each.kind} ${each.amount}`);
    expect(of('inside pocket')).toEqual(['labour-efficiency -25.00', 'labour-rate 0.00']);
    expect(of('sewing')).toEqual(['labour-efficiency 200.00', 'labour-rate 0.00']);
  });

  it('matches by name and mode, and sums duplicates', () => {
    const line = (minutes: number, mode: string) => ({
      name: 'hem',
      mode,
      minutes: d(minutes),
      perHour: d(30),
    });
    const planned = { price: eur('0'), operations: [line(10, 'hand'), line(20, 'hand'), line(10, 'press')] };
    const actual = { price: eur('0'), operations: [line(40, 'hand'), line(4, 'press')] };
    const { variances } = variancesOf('EUR', planned, actual);
    const efficiency = variances.filter((each) => each.kind === 'labour-efficiency');
    expect(efficiency.map((each) => `${each.mode} ${each.amount}`)).toEqual(['hand -5.00', 'press 3.00']);
  });

  it('gives a courtesy its cost and no price, even when one was written beside it', () => {
    const { operations } = sewing(60, '0');
    const all = variancesOf('EUR', sewing(600, '300'), sewing(660, '300'), [
      { kind: 'compliments', price: eur('50'), operations, name: 'ticket pocket' },
    ]);
    expect([amountOf(all, 'extras'), amountOf(all, 'price')]).toEqual(['-20.00', '0.00']);
    expect(all.variances.find((each) => each.kind === 'extras')?.name).toBe('ticket pocket');
  });

  it('takes work out with an extra of negative quantity', () => {
    const all = variancesOf('EUR', sewing(600, '300'), sewing(540, '285'), [
      { kind: 'charged', price: eur('-15'), operations: sewing(-60, '0').operations },
    ]);
    expect([amountOf(all, 'labour-efficiency'), amountOf(all, 'extras'), amountOf(all, 'price')]).toEqual([
      '0.00',
      '5.00',
      '0.00',
    ]);
    expect(bridge(all)).toBe('100.00 + 5.00 = 105.00');
  });

  it('lets a goodwill discount show as price', () => {
    const all = variancesOf('EUR', sewing(600, '300'), sewing(600, '280'));
    expect(amountOf(all, 'price')).toBe('-20.00');
  });

  it('splits overhead and machine on their base, and takes expenses whole', () => {
    const work = (hours: number, rate: string, courier: string): PricedWork => ({
      price: eur('0'),
      machine: [{ name: 'machine', minutes: d(hours * 60), perHour: d(rate) }],
      overhead: [{ name: 'workroom', baseQuantity: d(hours), rate: d(rate) }],
      expenses: [{ name: 'courier', amount: eur(courier) }],
    });
    const all = variancesOf('EUR', work(10, '5', '12'), work(11, '6', '15.50'));
    expect(
      all.variances.filter((each) => each.kind !== 'price').map((each) => `${each.kind} ${each.amount}`),
    ).toEqual([
      'machine-efficiency -5.00',
      'machine-rate -11.00',
      'overhead-efficiency -5.00',
      'overhead-spending -11.00',
      'expenses -3.50',
    ]);
  });

  it('lets an amount beside a rate win', () => {
    const overhead = [{ name: 'v', baseQuantity: d(1800), rate: d('1.94'), amount: eur('3500') }];
    const planned = { price: eur('0'), overhead: [{ name: 'v', baseQuantity: d(1800), rate: d(2) }] };
    expect(amountOf(variancesOf('EUR', planned, { price: eur('0'), overhead }), 'overhead-spending')).toBe(
      '100.00',
    );
  });
});
