/**
 * Source: Principles of Accounting, Vol. 2: Managerial Accounting (OpenStax, Rice University, 2019), chapter 8.
 * Favourable is positive here; the book writes F and U. Its misprints (the rounded 1.94 in section 8.4) are not copied.
 */
import { describe, expect, it } from 'vitest';
import { type JobWork, type VarianceKind, variancesOf } from '../../../src/domain/costing/variances.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { overheadAllowed, predeterminedRate } from '../../../src/domain/rates/overhead-rate.js';

const d = (number: string | number) => new Decimal(number);
const usd = (amount: number) => Money.rounded(d(amount), 'USD');
const price = usd(0);

/** The variances of a kind, and that they add up to the difference of the two profits. */
const between = (planned: JobWork, actual: JobWork) => {
  const all = variancesOf('USD', { ...planned, price }, { ...actual, price });
  expect(all.plannedProfit.plus(all.sum).toString()).toBe(all.actualProfit.toString());
  return (kind: VarianceKind) =>
    Money.sum(
      all.variances.filter((each) => each.kind === kind).map((each) => each.amount),
      'USD',
    ).toString();
};
const sugar = (quantity: string, unitCost: string): JobWork => ({
  materials: [{ name: 'sugar', quantity: d(quantity), unitCost: d(unitCost) }],
});
const making = (hours: string, perHour: string): JobWork => ({
  operations: [{ name: 'making', mode: 'hand', minutes: d(hours).times(60), perHour: d(perHour) }],
});
const spent = (hours: number, amount: number): JobWork => ({
  overhead: [{ name: 'variable overhead', baseQuantity: d(hours), amount: usd(amount) }],
});
const allowed = (hours: number): JobWork => ({
  overhead: [{ name: 'variable overhead', baseQuantity: d(hours), rate: d(2) }],
});

describe('Principles of Accounting, Vol. 2 (OpenStax, 2019), section 8.2, materials', () => {
  it.each([
    ['VAR-01', '6.00', '20.00'],
    ['VAR-02', '9.00', '-40.00'],
  ])('%s price of 20 lb at %s against 7.00', (_, paid, amount) => {
    expect(between(sugar('20', '7.00'), sugar('20', paid))('material-price')).toBe(amount);
  });

  it.each([
    ['VAR-03', '0.20', '0.35'],
    ['VAR-04', '0.50', '-1.75'],
  ])('%s quantity %s against 0.25 at 7.00', (_, used, amount) => {
    expect(between(sugar('0.25', '7.00'), sugar(used, '7.00'))('material-usage')).toBe(amount);
  });

  it('VAR-06 89,000 oz for 74,760 against 11,000 × 8 oz at 0.85: price 890, usage −850, together 40', () => {
    const actual = { materials: [{ name: 'sugar', quantity: d(89_000), amount: usd(74_760) }] };
    const of = between(sugar('88000', '0.85'), actual);
    expect([of('material-price'), of('material-usage')]).toEqual(['890.00', '-850.00']);
  });
});

describe('Principles of Accounting, Vol. 2 (OpenStax, 2019), section 8.3, labour', () => {
  it.each([
    ['VAR-07', '0.10', '7.50', '0.05', '0.00'],
    ['VAR-08', '0.10', '9.50', '-0.15', '0.00'],
    ['VAR-09', '0.05', '8.00', '0.00', '0.40'],
    ['VAR-10', '0.20', '8.00', '0.00', '-0.80'],
    ['VAR-11', '0.20', '9.50', '-0.30', '-0.80'],
  ])('%s %s h at %s against 0.10 h at 8.00', (_, hours, rate, ofRate, ofTime) => {
    const of = between(making('0.10', '8.00'), making(hours, rate));
    expect([of('labour-rate'), of('labour-efficiency')]).toEqual([ofRate, ofTime]);
  });
});

describe('Principles of Accounting, Vol. 2 (OpenStax, 2019), section 8.4, overhead', () => {
  it.each([
    [1_800, '9600.00', '5.33'],
    [2_000, '10000.00', '5.00'],
    [2_200, '10400.00', '4.73'],
  ])('VAR-13 flexible budget at %s hours', (hours, total, rate) => {
    const budget = overheadAllowed(usd(6_000), predeterminedRate(usd(4_000), d(2_000)), d(hours));
    expect(budget.toString()).toBe(total);
    expect(predeterminedRate(budget, d(hours)).toFixed(2)).toBe(rate);
  });

  it.each([
    ['VAR-14', 2_500, 7_000, '-2000.00'],
    ['VAR-15', 2_000, 3_500, '500.00'],
  ])('%s spending at %s hours', (_, hours, amount, variance) => {
    expect(between(allowed(hours), spent(hours, amount))('overhead-spending')).toBe(variance);
  });

  it('VAR-17 efficiency of 1,800 hours against 2,000', () => {
    expect(between(allowed(2_000), allowed(1_800))('overhead-efficiency')).toBe('400.00');
  });

  it('VAR-18 unrounded, spending 100 and efficiency 400 (the book prints 108 by rounding a rate)', () => {
    const of = between(allowed(2_000), spent(1_800, 3_500));
    expect([of('overhead-spending'), of('overhead-efficiency')]).toEqual(['100.00', '400.00']);
  });

  it.each([
    [315_000, 14_000, '22.50'],
    [346_000, 16_000, '21.63'],
    [378_000, 18_000, '21.00'],
  ])('VAR-19 %s over %s hours', (overhead, hours, rate) => {
    expect(predeterminedRate(usd(overhead), d(hours)).toFixed(2)).toBe(rate);
  });

  it('VAR-22 33,500 machine hours at 7.00 against 2,500 × 13.5 at 6.75 (exercise; answer derived)', () => {
    const running = (hours: number, perHour: string): JobWork => ({
      machine: [{ name: 'running', minutes: d(hours * 60), perHour: d(perHour) }],
    });
    const of = between(running(2_500 * 13.5, '6.75'), running(33_500, '7.00'));
    expect([of('machine-rate'), of('machine-efficiency')]).toEqual(['-8375.00', '1687.50']);
  });
});
