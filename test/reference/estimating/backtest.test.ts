import { describe, expect, it } from 'vitest';
import { fitLesson } from '../../../src/domain/estimating/lesson/lesson.js';
import { backtest, refitAfter } from '../../../src/domain/estimating/proof/backtest.js';
import { aStudio } from './studio.js';

// Calibration as in Gneiting, Balabdaoui and Raftery, JRSS B 69 (2007): of the stated 80 %, about 80 % should come true.
// The workrooms are invented, their truth drawn by a seed; the bounds are three binomial deviations wide.
describe('stated chances come true', () => {
  const proofs = [11, 12, 13, 14, 15, 16].map((seed) =>
    backtest(aStudio(seed, { garments: 45, operations: 8 })),
  );
  const share = (of: (proof: (typeof proofs)[number]) => number) =>
    proofs.reduce((sum, proof) => sum + of(proof), 0) / proofs.length;

  it('over six workrooms of 45 garments', () => {
    const bound = (p: number) => 3 * Math.sqrt((p * (1 - p)) / (6 * 45));
    expect(Math.abs(share(({ lesson }) => lesson.within80) - 0.8)).toBeLessThan(bound(0.8));
    expect(Math.abs(share(({ lesson }) => lesson.within90) - 0.9)).toBeLessThan(bound(0.9));
    expect(Math.abs(share(({ lesson }) => lesson.atMostP80) - 0.8)).toBeLessThan(bound(0.8));
    expect(Math.abs(share(({ lesson }) => lesson.medianBias))).toBeLessThan(0.06);
  });

  it('the lesson earns its place beside the own plan and the last average ratio', () => {
    const lesson = share((proof) => proof.lesson.crps);
    expect(lesson).toBeLessThan(share((proof) => proof.ownPlan.crps));
    expect(lesson).toBeLessThan(share((proof) => proof.averageRatio.crps));
  });

  it('residuals made normal look normal', () => {
    const z = proofs.flatMap(({ trail }) => trail.map((one) => one.z));
    const mean = z.reduce((a, b) => a + b, 0) / z.length;
    expect(z).toHaveLength(270);
    expect(Math.abs(mean)).toBeLessThan(0.2);
    expect(z.reduce((sum, value) => sum + (value - mean) ** 2, 0) / z.length).toBeGreaterThan(0.75);
    expect(z.reduce((sum, value) => sum + (value - mean) ** 2, 0) / z.length).toBeLessThan(1.3);
  });
});

describe('the proof itself', () => {
  it('knows nothing of what comes later: the trail of the first garments does not change', () => {
    const history = aStudio(21, { garments: 30, operations: 5 });
    const whole = backtest(history).trail;
    const early = backtest(history.slice(0, 18)).trail;
    early.forEach((proof, i) => {
      expect(whole[i]!.fourInFive).toBeCloseTo(proof.fourInFive, 9);
    });
  });

  it('fits anew on a stated schedule', () => {
    expect([0, 5, 25, 60, 500].map((done) => refitAfter(done, 500))).toEqual([3, 3, 3, 6, 10]);
    expect([0, 19, 20, 45].map((done) => refitAfter(done, 46))).toEqual([1, 1, 2, 4]);
    expect(refitAfter(15_000, 20_000)).toBe(100);
  });

  it('has an answer for no garments, for one, and for garments without usable rows', () => {
    const empty = { within80: 0, within90: 0, atMostP80: 0, medianBias: 0, crps: 0 };
    expect(backtest([])).toMatchObject({
      garments: 0,
      lesson: empty,
      ownPlan: empty,
      averageRatio: empty,
      trail: [],
    });
    expect(backtest([{ garmentType: 'x', operations: [] }]).garments).toBe(0);
    const one = backtest([
      { garmentType: 'x', operations: [{ kind: 'k', plannedMinutes: 60, actualMinutes: 66 }] },
    ]);
    expect(one.garments).toBe(1);
    expect(one.lesson.within80).toBe(1);
    expect(one.ownPlan.medianBias).toBeCloseTo(Math.log(1.1), 12);
  });

  it('a changed studio is noticed by the trail and forgotten by the lesson', () => {
    const before = aStudio(31, { garments: 40, operations: 6 });
    const after = before.map((garment) => ({
      ...garment,
      operations: garment.operations.map((o) => ({ ...o, actualMinutes: o.actualMinutes * 1.6 })),
    }));
    const middle = (history: typeof before) => fitLesson(history).effects[0]!;
    expect(middle([...before, ...after, ...after]) - middle(before)).toBeGreaterThan(0.2);
  });
});
