/**
 * Source of every check here: Principles of Accounting, Vol. 2: Managerial Accounting (OpenStax, Rice University, 2019),
 * section 4.6 and the exercises of chapter 4, as collected in check-values/published.md (JC-10, JC-11, JC-30, JC-32, JC-34).
 */
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { absorbed } from '../../../src/domain/rates/overhead-rate.js';
import { overheadStanding } from '../../../src/domain/rates/overhead-standing.js';

const d = (number: number | string) => new Decimal(number);
const usd = (amount: number) => Money.rounded(d(amount), 'USD');

describe('overhead absorbed against incurred', () => {
  it.each([
    // case, rate, actual base, actual overhead, budget, applied, over-absorbed
    ['JC-10', '2.5', 100_000, 256_500, 250_000, 250_000, -6_500],
    ['JC-11', '2.5', 100_000, 248_000, 250_000, 250_000, 2_000],
    ['JC-30', '3.5', 24_100, 90_000, 85_000, 84_350, -5_650],
    ['JC-32', '4', 26_000, 102_000, 100_000, 104_000, 2_000],
    ['JC-34', '3', 24_000, 74_000, 75_000, 72_000, -2_000],
  ])('%s', (_, rate, base, incurred, budget, applied, over) => {
    const standing = overheadStanding({
      incurred: usd(incurred),
      absorbed: absorbed(d(rate), d(base), 'USD'),
      budgeted: usd(budget),
      hours: d(base),
    });
    expect(standing.absorbed.equals(usd(applied))).toBe(true);
    expect(standing.difference.equals(usd(over))).toBe(true);
    expect(standing.verdict).toBe(over < 0 ? 'under-absorbed' : 'over-absorbed');
    expect(standing.spending.plus(standing.volume).equals(standing.difference)).toBe(true);
    expect(standing.absorbedPerHour?.toDecimal().eq(rate)).toBe(true);
    // The rate that would have been right takes up exactly what was spent.
    expect(standing.factor?.times(rate).times(base).toDecimalPlaces(6).eq(incurred)).toBe(true);
  });
});
