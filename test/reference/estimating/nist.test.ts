import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { factorise, inverseFrom, solveInPlace } from '../../../src/domain/estimating/algebra/cholesky.js';
import { deviation, mean, squaresAbout } from '../../../src/domain/estimating/algebra/moments.js';

// NIST/ITL, Statistical Reference Datasets (StRD): data and certified values.
interface Published {
  Michelso: { mean: number; deviation: number; y: number[] };
  SiRstv: { F: number; rows: number[][] };
  AtmWtAg: { F: number; rows: number[][] };
  SmLs01: { F: number; rows: number[][] };
  Norris: { b: number[]; deviation: number; rows: number[][] };
  Longley: { b: number[]; deviation: number; rows: number[][] };
}
const nist = JSON.parse(
  readFileSync(new URL('../values/estimating/nist-strd.json', import.meta.url), 'utf8'),
) as Published;

/** Agreement in significant digits. */
const digits = (value: number, certified: number) => -Math.log10(Math.abs(value / certified - 1) + 1e-16);

describe('NIST: mean and standard deviation', () => {
  it('Michelso: 100 measurements of the speed of light', () => {
    expect(mean(nist.Michelso.y)).toBeCloseTo(299.8524, 12);
    expect(digits(deviation(nist.Michelso.y), 0.0790105478190518)).toBeGreaterThan(12);
  });

  it('NumAcc1 to 4: numbers that differ only in their last digit', () => {
    const around = (first: number, low: number, high: number) => [
      first,
      ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high)),
    ];
    const sets: [number[], number, number, number][] = [
      [[10000001, 10000003, 10000002], 10000002, 1, 15],
      [around(1.2, 1.1, 1.3), 1.2, 0.1, 13],
      [around(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 9],
      [around(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 8],
    ];
    for (const [values, certifiedMean, certifiedDeviation, enough] of sets) {
      expect(digits(mean(values), certifiedMean)).toBeGreaterThan(14);
      expect(digits(deviation(values), certifiedDeviation)).toBeGreaterThan(enough);
    }
  });
});

describe('NIST: analysis of variance', () => {
  const ratio = (rows: readonly number[][]): number => {
    const groups = new Map<number, number[]>();
    for (const [group, value] of rows) groups.set(group!, [...(groups.get(group!) ?? []), value!]);
    const sets = [...groups.values()];
    const whole = mean(rows.map((row) => row[1]!));
    const between = sets.reduce((sum, set) => sum + set.length * (mean(set) - whole) ** 2, 0);
    const within = sets.reduce((sum, set) => sum + squaresAbout(set), 0);
    return between / (sets.length - 1) / (within / (rows.length - sets.length));
  };

  it('SiRstv, AtmWtAg and SmLs01: the certified F', () => {
    expect(nist.SiRstv.rows).toHaveLength(25);
    expect(digits(ratio(nist.SiRstv.rows), 1.18046237440255)).toBeGreaterThan(11);
    expect(nist.AtmWtAg.rows).toHaveLength(48);
    expect(digits(ratio(nist.AtmWtAg.rows), 15.946733567793)).toBeGreaterThan(8);
    expect(nist.SmLs01.rows).toHaveLength(189);
    expect(digits(ratio(nist.SmLs01.rows), 21)).toBeGreaterThan(12);
  });
});

describe('NIST: regression with the Cholesky factor of the lesson', () => {
  /** Least squares on centred columns brought to length 1; the constant comes back at the end. */
  const regress = (y: readonly number[], columns: readonly number[][]) => {
    const p = columns.length;
    const centres = columns.map((column) => mean(column));
    const lengths = columns.map((column) => Math.sqrt(squaresAbout(column)));
    const z = columns.map((column, j) => column.map((value) => (value - centres[j]!) / lengths[j]!));
    const centre = mean(y);
    const dot = (a: readonly number[], b: readonly number[]) =>
      a.reduce((sum, value, i) => sum + value * b[i]!, 0);
    const cross = Float64Array.from({ length: p * p }, (_, at) => dot(z[Math.floor(at / p)]!, z[at % p]!));
    const off = y.map((value) => value - centre);
    const right = Float64Array.from(z, (column) => dot(column, off));
    const original = Float64Array.from(cross);
    const factor = factorise(cross, p);
    const inverse = inverseFrom(factor, p);
    const solved = solveInPlace(factor, p, right);
    const slopes = Array.from(solved, (value, j) => value / lengths[j]!);
    const b = [centre - dot(slopes, centres), ...slopes];
    const left = y.map(
      (value, i) => value - columns.reduce((sum, column, j) => sum + b[j + 1]! * column[i]!, b[0]!),
    );
    const residual = Math.sqrt(dot(left, left) / (y.length - p - 1));
    let unit = 0;
    for (let i = 0; i < p; i += 1)
      for (let j = 0; j < p; j += 1) {
        let sum = i === j ? -1 : 0;
        for (let k = 0; k < p; k += 1) sum += original[i * p + k]! * inverse[k * p + j]!;
        unit = Math.max(unit, Math.abs(sum));
      }
    return { b, residual, unit };
  };
  const fitted = ({ rows }: { rows: number[][] }) =>
    regress(
      rows.map((row) => row[0]!),
      rows[0]!.slice(1).map((_, j) => rows.map((row) => row[j + 1]!)),
    );

  it('Norris: calibration of ozone monitors', () => {
    const { b, residual } = fitted(nist.Norris);
    expect(digits(b[0]!, -0.262323073774029)).toBeGreaterThan(11);
    expect(digits(b[1]!, 1.00211681802045)).toBeGreaterThan(13);
    expect(digits(residual, 0.884796396144373)).toBeGreaterThan(11);
  });

  it('Longley: six columns that are nearly one', () => {
    const { b, residual, unit } = fitted(nist.Longley);
    nist.Longley.b.forEach((certified, j) => {
      expect(digits(b[j]!, certified)).toBeGreaterThan(8);
    });
    expect(digits(residual, 304.854073561965)).toBeGreaterThan(9);
    expect(unit).toBeLessThan(1e-9);
  });
});
