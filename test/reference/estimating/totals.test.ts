import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../../src/domain/estimating/chance/normal.js';
import { drawSums } from '../../../src/domain/estimating/forecast/drawn.js';
import { freedomOf } from '../../../src/domain/estimating/forecast/freedom.js';
import type { Joint } from '../../../src/domain/estimating/forecast/joint.js';
import { lognormalSum } from '../../../src/domain/estimating/forecast/lognormal-sum.js';

const e = [6, 10, 4];
const m = [0.2, 0.3, 0.1];
const own = [0.09, 0.16, 0.09];
const S = Float64Array.from({ length: 9 }, (_, i) => 0.04 + (i % 4 === 0 ? own[i / 4]! : 0));

// Moment matching after Fenton, IRE Transactions on Communications Systems 8 (1960); figures computed with R 4.2.2.
describe('the sum of related operations', () => {
  const at = (mu: number, s: number) => [0.5, 0.8, 0.9].map((p) => Math.exp(mu + s * normalQuantile(p)));

  it('keeps mean and variance', () => {
    const sum = lognormalSum(e, m, S);
    expect(sum.mean).toBeCloseTo(27.4564053059, 9);
    expect(sum.variance).toBeCloseTo(79.1331984968, 8);
    expect(sum.mu).toBeCloseTo(3.26268971794, 10);
    expect(sum.s).toBeCloseTo(0.315942296243, 11);
    const [even, fourInFive, nineInTen] = at(sum.mu, sum.s);
    expect(even).toBeCloseTo(26.1197, 4);
    expect(fourInFive).toBeCloseTo(34.076, 4);
    expect(nineInTen).toBeCloseTo(39.1573, 4);
  });

  it('is wider than a spreadsheet that takes operations as independent', () => {
    const apart = S.map((value, i) => (i % 4 === 0 ? value : 0));
    const sum = lognormalSum(e, m, apart);
    const [even, fourInFive, nineInTen] = at(sum.mu, sum.s);
    expect(even).toBeCloseTo(26.4111, 4);
    expect(fourInFive).toBeCloseTo(33.3908, 4);
    expect(nineInTen).toBeCloseTo(37.7451, 4);
  });

  it('by stratified draws: the same mean and variance, and a P50, P80 and P90 within 1.5 %', () => {
    const joint: Joint = {
      size: 3,
      planned: e,
      means: m,
      shared: new Float64Array(9).fill(0.04),
      ofGarment: new Float64Array(9).fill(0.04),
      noise: own,
      noiseDegrees: [2000, 2000, 2000],
      garmentDegrees: 2000,
      historyDegrees: 2000,
    };
    const [sums] = drawSums(joint, [0, 0, 0], [[1, 1, 1]], 2000);
    const mean = sums!.reduce((a, b) => a + b, 0) / sums!.length;
    const variance = sums!.reduce((a, b) => a + (b - mean) ** 2, 0) / sums!.length;
    expect(mean / 27.4564053059).toBeCloseTo(1, 2);
    expect(Math.abs(variance / 79.1331984968 - 1)).toBeLessThan(0.05);
    [26.1197, 34.076, 39.1573].forEach((published, i) => {
      const drawn = sums![Math.floor([0.5, 0.8, 0.9][i]! * sums!.length)]!;
      expect(Math.abs(drawn / published - 1)).toBeLessThan(0.015);
    });
  });

  it('degrees of freedom: .04 on 9 and .16 on 20 make 27.439', () => {
    // Satterthwaite, Biometrics Bulletin 2 (1946).
    expect(
      freedomOf([
        [0.04, 9],
        [0.16, 20],
      ]),
    ).toBeCloseTo(27.4390243902, 10);
    expect(freedomOf([])).toBe(Number.POSITIVE_INFINITY);
  });
});
