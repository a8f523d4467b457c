import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../../src/domain/estimating/chance/normal.js';
import { studentQuantile } from '../../../src/domain/estimating/chance/student.js';
import { crps, crpsOfDraws } from '../../../src/domain/estimating/proof/crps.js';

describe('the score of a forecast', () => {
  it('a standard normal at its centre scores 0.23369', () => {
    // Gneiting and Raftery, "Strictly Proper Scoring Rules, Prediction, and Estimation", JASA 102 (2007), equation 21:
    // 2 phi(0) - 1 / sqrt(pi).
    expect(crps(0, 0, 1)).toBeCloseTo(2 / Math.sqrt(2 * Math.PI) - 1 / Math.sqrt(Math.PI), 12);
    expect(crps(3, 1, 2)).toBeCloseTo(2 * crps(1, 0, 1), 12);
    expect(crps(3, 1, 0)).toBe(2);
  });

  it('the closed form for t agrees with a long list of its own quantiles', () => {
    const n = 4000;
    for (const nu of [4, 7.5, 30])
      for (const y of [-1, 0.3, 2.5]) {
        const list = Float64Array.from({ length: n }, (_, i) => studentQuantile((i + 0.5) / n, nu));
        expect(crpsOfDraws(y, list)).toBeCloseTo(crps(y, 0, 1, nu), 3);
      }
  });

  it('tends to the normal', () => {
    expect(crps(0.7, 0, 1, 9e4)).toBeCloseTo(crps(0.7, 0, 1), 5);
    const list = Float64Array.from({ length: 5000 }, (_, i) => normalQuantile((i + 0.5) / 5000));
    expect(crpsOfDraws(0.7, list)).toBeCloseTo(crps(0.7, 0, 1), 3);
  });
});
