/** Source: Principles of Accounting, Vol. 2: Managerial Accounting (OpenStax, Rice University, 2019), chapter 3. */
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { OutOfRange } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import {
  contribution,
  contributionShare,
  mixContribution,
  operatingLeverage,
  profitAt,
  salesOf,
  unitsToEarn,
} from '../../../src/domain/pricing/cost-volume-profit.js';

const d = (number: string | number) => new Decimal(number);
const usd = (amount: string | number) => Money.rounded(d(amount), 'USD');
const sold = (price: string | number, variableCost: string | number) => ({
  price: usd(price),
  variableCost: usd(variableCost),
});

describe('Principles of Accounting, Vol. 2 (OpenStax, 2019), chapter 3', () => {
  const bath = sold(100, 20);

  it('PR-01 price 100, variable cost 20, fixed 18,000: 225 units, sales 22,500', () => {
    expect(contribution(bath).toString()).toBe('80.00');
    expect(contributionShare(bath).toFixed(2)).toBe('0.80');
    const units = unitsToEarn(usd(18_000), bath);
    expect(units.toFixed()).toBe('225');
    expect(salesOf(bath, units).toString()).toBe('22500.00');
  });

  it('PR-02 and to leave 16,000: 425 units, sales 42,500', () => {
    const units = unitsToEarn(usd(18_000), bath, usd(16_000));
    expect(units.toFixed()).toBe('425');
    expect(salesOf(bath, units).toString()).toBe('42500.00');
  });

  it('PR-04 175 units lose 4,000, 300 units leave 6,000', () => {
    expect(profitAt(usd(18_000), bath, d(175)).toString()).toBe('-4000.00');
    expect(profitAt(usd(18_000), bath, d(300)).toString()).toBe('6000.00');
  });

  it('PR-05 a hair salon: 200 cuts pay 3,000', () => {
    expect(unitsToEarn(usd(3_000), sold(35, 20)).toFixed()).toBe('200');
  });

  it('PR-06 tax returns: 56, or 96 to leave 10,000, revenue 38,400', () => {
    const filed = sold(400, 150);
    expect(unitsToEarn(usd(14_000), filed).toFixed()).toBe('56');
    const units = unitsToEarn(usd(14_000), filed, usd(10_000));
    expect(units.toFixed()).toBe('96');
    expect(salesOf(filed, units).toString()).toBe('38400.00');
  });

  it('PR-07 a kiosk: 250 at 100 units, 1,200 at 200', () => {
    const profits = [100, 200].map((units) => profitAt(usd(700), sold(25, '15.50'), d(units)).toString());
    expect(profits).toEqual(['250.00', '1200.00']);
  });

  it.each([
    ['PR-08 a café', '3.75', '1.50', 2_475, '1100', '4125.00', '900.00'],
    ['PR-09 price up by 0.50', '4.25', '1.50', 2_475, '900', '3825.00', '1650.00'],
    ['PR-10 variable cost 1.55', '3.75', '1.55', 2_475, '1125', '4218.75', '825.00'],
    ['PR-11 fixed cost 2,700', '3.75', '1.50', 2_700, '1200', '4500.00', '675.00'],
  ])('%s: break-even and income at 1,500', (_, price, cost, fixed, units, sales, income) => {
    const cup = sold(price, cost);
    const even = unitsToEarn(usd(fixed), cup);
    expect([even.toFixed(), salesOf(cup, even).toString()]).toEqual([units, sales]);
    expect(profitAt(usd(fixed), cup, d(1_500)).toString()).toBe(income);
  });

  it('PR-14 10,000 of fixed cost and 5,000 wanted at 250 each: 60 units', () => {
    expect(unitsToEarn(usd(10_000), sold(250, 0), usd(5_000)).toFixed()).toBe('60');
  });

  it('PR-15 150 less 60 contributes 60 %', () => {
    expect(contributionShare(sold(150, 60)).toFixed()).toBe('0.6');
  });

  it('PR-16 one at 25 − 11 and two at 28 − 7 contribute 56 together', () => {
    const mix = [
      { garment: sold(25, 11), count: d(1) },
      { garment: sold(28, 7), count: d(2) },
    ];
    expect(mixContribution('USD', mix).toString()).toBe('56.00');
  });

  it('PR-17 contribution 61,250 over income 24,500: leverage 2.5, so sales 10 % up are income 25 % up', () => {
    const leverage = operatingLeverage(usd(61_250), usd(24_500));
    expect(leverage?.toFixed()).toBe('2.5');
    expect(leverage?.times('0.10').toFixed()).toBe('0.25');
    expect(operatingLeverage(usd(61_250), usd(0))).toBeNull();
  });

  it('finds no number of garments that pay the rent when each brings nothing', () => {
    expect(() => unitsToEarn(usd(1), sold(10, 10))).toThrow(OutOfRange);
    expect(() => contributionShare(sold(0, 10))).toThrow(OutOfRange);
  });
});
