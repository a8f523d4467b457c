import { describe, expect, it } from 'vitest';
import type { GarmentOfRows } from '../../../src/domain/estimating/lesson/history.js';
import { type Fit, fitRows } from '../../../src/domain/estimating/lesson/lesson.js';
import { type Belief, STARTING_BELIEF } from '../../../src/domain/estimating/lesson/starting-values.js';

/** Every prior switched off: one mean, batches, normal noise. What is left is restricted maximum likelihood. */
const PLAIN: Belief = {
  ...STARTING_BELIEF,
  m0: 0,
  s0: Number.POSITIVE_INFINITY,
  type: 0,
  kind: 0,
  pair: 0,
  slope: 0,
  nu0: 0,
  nuS: 0,
  noiseDegrees: Number.POSITIVE_INFINITY,
  halfLife: Number.POSITIVE_INFINITY,
  sweeps: 20_000,
  tolerance: 1e-11,
};

const batches = (groups: readonly (readonly number[])[]): GarmentOfRows[] =>
  groups.map((values) => ({
    garmentType: 'batch',
    again: 0,
    rows: values.map((y) => ({ kind: 'yield', y, lnPlanned: 0, change: 0 })),
  }));

const meanOf = (fit: Fit) => fit.solution.effects[0]!;

describe('with the priors switched off the fit is REML', () => {
  it('Dyestuff: yields of six batches', () => {
    // Davies, "Statistical Methods in Research and Production" (1949); REML estimates as published with the R package
    // lme4 (Bates, Mächler, Bolker and Walker, Journal of Statistical Software 67, 2015): 1764.05, 2451.25, 1527.5.
    const fit = fitRows(
      batches([
        [1545, 1440, 1440, 1520, 1580],
        [1540, 1555, 1490, 1560, 1495],
        [1595, 1550, 1605, 1510, 1560],
        [1445, 1440, 1595, 1465, 1545],
        [1595, 1630, 1515, 1635, 1625],
        [1520, 1455, 1450, 1480, 1445],
      ]),
      { ...PLAIN, garment: 40, noise: 50 },
    );
    expect(fit.variances.garment).toBeCloseTo(1764.05, 2);
    expect(fit.variances.noiseOf[0]).toBeCloseTo(2451.25, 2);
    expect(meanOf(fit)).toBeCloseTo(1527.5, 6);
    const published = [-17.6068, 0.3913, 28.5622, -23.0845, 56.7331, -44.9952];
    published.forEach((effect, batch) => {
      expect(fit.swept.gammas[batch]).toBeCloseTo(effect, 3);
    });
  });

  it('Rail: travel times of ultrasonic waves in six rails', () => {
    // Pinheiro and Bates, "Mixed-Effects Models in S and S-PLUS" (2000), section 1.1: sd 24.8055 and 4.02078.
    const fit = fitRows(
      batches([
        [55, 53, 54],
        [26, 37, 32],
        [78, 91, 85],
        [92, 100, 96],
        [49, 51, 50],
        [80, 85, 83],
      ]),
      { ...PLAIN, garment: 20, noise: 5 },
    );
    expect(Math.sqrt(fit.variances.garment)).toBeCloseTo(24.8055, 3);
    expect(Math.sqrt(fit.variances.noiseOf[0]!)).toBeCloseTo(4.02078, 4);
    expect(meanOf(fit)).toBeCloseTo(66.5, 6);
  });

  it('baseball: shrinking to the common mean, at the published factor', () => {
    // Efron and Morris, "Data Analysis Using Stein's Estimator and its Generalizations", JASA 70 (1975), 311-319:
    // 45 at-bats of 18 players, then the rest of the season. Factor .209, squared errors 17.56 and 5.01.
    const hits = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7];
    const later = [
      0.346, 0.298, 0.276, 0.222, 0.273, 0.27, 0.263, 0.21, 0.269, 0.23, 0.264, 0.256, 0.303, 0.264, 0.226,
      0.285, 0.316, 0.2,
    ];
    const arc = (share: number) => Math.sqrt(45) * Math.asin(2 * share - 1);
    const x = hits.map((h) => arc(h / 45));
    const centre = x.reduce((a, b) => a + b, 0) / x.length;
    const factor = 1 - (x.length - 3) / x.reduce((sum, value) => sum + (value - centre) ** 2, 0);
    expect(factor).toBeCloseTo(0.209, 2);
    // One sweep solves at the given variances: noise 1, and players' spread so that factor = w² / (w² + 1).
    const fit = fitRows(batches(x.map((value) => [value])), {
      ...PLAIN,
      garment: Math.sqrt(factor / (1 - factor)),
      noise: 1,
      sweeps: 1,
    });
    const drawn = fit.swept.gammas.map((gamma) => meanOf(fit) + gamma);
    const errorOf = (guess: readonly number[]) =>
      guess.reduce((sum, value, i) => sum + (value - arc(later[i]!)) ** 2, 0);
    expect(Math.abs(errorOf(x) - 17.56)).toBeLessThan(0.02);
    expect(Math.abs(errorOf(drawn) - 5.01)).toBeLessThan(0.02);
  });
});
