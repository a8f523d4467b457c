import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { betaQuantile, incompleteBeta } from '../../../src/domain/estimating/chance/incomplete-beta.js';
import {
  chiSquareQuantile,
  gammaQuantile,
  incompleteGamma,
} from '../../../src/domain/estimating/chance/incomplete-gamma.js';
import { normalChance, normalQuantile } from '../../../src/domain/estimating/chance/normal.js';
import {
  quickStudentQuantile,
  studentChance,
  studentQuantile,
} from '../../../src/domain/estimating/chance/student.js';

// R Core Team, R 4.2.2 (2022), functions qnorm, qt, qbeta, qgamma and qlnorm: 558 values.
const table = readFileSync(new URL('../values/estimating/quantiles-r-4.2.2.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => {
    const [dist, p, a, b, value] = line.split(',');
    return {
      dist: JSON.parse(dist!) as string,
      p: Number(p),
      a: Number(a),
      b: Number(b),
      value: Number(value),
    };
  });
const rowsOf = (dist: string) => table.filter((row) => row.dist === dist);

/** Largest difference, relative where the value is not near nothing. */
const worst = (rows: typeof table, quantile: (row: (typeof table)[number]) => number): number =>
  Math.max(
    ...rows.map((row) => {
      const gap = Math.abs(quantile(row) - row.value);
      return gap === 0 ? 0 : gap / Math.max(Math.abs(row.value), 1e-300);
    }),
  );

describe('quantiles against R 4.2.2', () => {
  it('has every published row', () => {
    expect(table).toHaveLength(558);
  });

  it('normal, 18 rows', () => {
    expect(rowsOf('normal')).toHaveLength(18);
    expect(worst(rowsOf('normal'), (r) => normalQuantile(r.p))).toBeLessThan(1e-13);
  });

  it('Student t, 216 rows, from one degree of freedom to a million', () => {
    expect(rowsOf('t')).toHaveLength(216);
    expect(worst(rowsOf('t'), (r) => studentQuantile(r.p, r.a))).toBeLessThan(2e-11);
  });

  it('beta, 72 rows', () => {
    expect(rowsOf('beta')).toHaveLength(72);
    expect(worst(rowsOf('beta'), (r) => betaQuantile(r.p, r.a, r.b))).toBeLessThan(1e-11);
  });

  it('gamma, 180 rows, shapes from 0.01 to 100,000', () => {
    expect(rowsOf('gamma')).toHaveLength(180);
    expect(worst(rowsOf('gamma'), (r) => gammaQuantile(r.p, r.a) / r.b)).toBeLessThan(1e-11);
  });

  it('lognormal, 72 rows', () => {
    expect(rowsOf('lognormal')).toHaveLength(72);
    expect(worst(rowsOf('lognormal'), (r) => Math.exp(r.a + r.b * normalQuantile(r.p)))).toBeLessThan(1e-13);
  });
});

describe('chances undo quantiles', () => {
  it('normal, t, beta and gamma', () => {
    for (const p of [1e-6, 0.01, 0.2, 0.5, 0.8, 0.9, 0.999]) {
      expect(normalChance(normalQuantile(p))).toBeCloseTo(p, 13);
      for (const nu of [1, 2.5, 4, 30, 1000, 2e5])
        expect(studentChance(studentQuantile(p, nu), nu)).toBeCloseTo(p, 10);
      expect(incompleteBeta(betaQuantile(p, 2, 5), 2, 5)).toBeCloseTo(p, 12);
      expect(incompleteGamma(gammaQuantile(p, 7), 7)[0]).toBeCloseTo(p, 12);
    }
  });

  it('chi-square: 3.841459 and 18.307038 at 95 % on 1 and 10 degrees', () => {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4 (3.841 and 18.307), digits from memory beyond that.
    expect(chiSquareQuantile(0.95, 1)).toBeCloseTo(3.841459, 6);
    expect(chiSquareQuantile(0.95, 10)).toBeCloseTo(18.307038, 6);
  });

  it('the quick t used for draws is good to a tenth of a per cent', () => {
    for (const nu of [4, 4.5, 5.3, 8, 12, 100, 5000])
      for (const p of [0.0001, 0.01, 0.1, 0.3, 0.8, 0.9, 0.999])
        expect(quickStudentQuantile(p, nu) / studentQuantile(p, nu)).toBeCloseTo(1, 3);
  });
});
