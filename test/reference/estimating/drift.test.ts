import { describe, expect, it } from 'vitest';
import { drift, movingMean } from '../../../src/domain/estimating/proof/drift.js';

describe('getting better or worse', () => {
  it('the published series: 9.945, 9.7495, 10.63414, signals at 29 and 30 only', () => {
    // Montgomery, "Introduction to Statistical Quality Control", section 9.2, table on the EWMA of 30 values:
    // target 10, deviation 1, lambda 0.1, L 2.7.
    const series = [
      9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.2, 10.34, 9.03, 11.47, 10.51, 9.4, 10.08, 9.37,
      10.62, 10.31, 8.52, 10.84, 10.9, 9.33, 12.29, 11.5, 10.6, 11.08, 10.38, 11.62, 11.31, 10.52,
    ];
    const steps = movingMean(series, { target: 10, deviation: 1, lambda: 0.1, width: 2.7 });
    expect(steps[0]!.value).toBeCloseTo(9.945, 10);
    expect(steps[1]!.value).toBeCloseTo(9.7495, 10);
    expect(steps[29]!.value).toBeCloseTo(10.63414, 5);
    expect(steps.flatMap((step, i) => (step.alarm ? [`${i + 1} ${step.alarm}`] : []))).toEqual([
      '29 long',
      '30 long',
    ]);
  });

  it('garments: limits 2.4 sqrt(0.1111 (1 - 0.8^2t))', () => {
    const steps = movingMean([0, 0, 0]);
    steps.forEach((step, i) => {
      expect(step.high).toBeCloseTo(2.4 * Math.sqrt((1 / 9) * (1 - 0.8 ** (2 * (i + 1)))), 12);
    });
  });

  it('says how many ran long together, and stays quiet otherwise', () => {
    expect(drift([-0.3, 0.2, -1, 1.2, 1.4, 0.9, 1.1, 1.6, 1.3])).toEqual({ alarm: 'long', together: 6 });
    expect(drift([0.1, -1.5, -1.2, -1.9, -1.4])).toEqual({ alarm: 'short', together: 4 });
    expect(drift([0.4, -0.3, 0.2, -0.8])).toEqual({ alarm: undefined, together: 0 });
    expect(drift([])).toEqual({ alarm: undefined, together: 0 });
  });
});
