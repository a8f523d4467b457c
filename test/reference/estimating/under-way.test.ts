import { describe, expect, it } from 'vitest';
import { conditionOn, whileUnderWay } from '../../../src/domain/estimating/forecast/condition.js';
import { predict } from '../../../src/domain/estimating/forecast/hours.js';
import { fitLesson } from '../../../src/domain/estimating/lesson/lesson.js';

// Conditional normal distribution (Anderson, "An Introduction to Multivariate Statistical Analysis", 3rd edition 2003,
// theorem 2.5.1); figures computed with R 4.2.2.
describe('while it is being made', () => {
  it('operation 1, planned 6, took 10: the others move by less than itself', () => {
    const shared = new Float64Array(9).fill(0.04);
    shared[4] = 0.2;
    shared[8] = 0.13;
    const { means, covariance } = conditionOn([0.2, 0.3, 0.1], shared, [0], [0.09], [Math.log(10 / 6)]);
    expect(means[1]).toBeCloseTo(0.395638653466, 11);
    expect(means[2]).toBeCloseTo(0.195638653466, 11);
    expect(covariance[4]).toBeCloseTo(0.187692307692, 11);
    expect(covariance[5]).toBeCloseTo(0.0276923076923, 12);
    expect(covariance[8]).toBeCloseTo(0.117692307692, 11);
  });

  it('planned 10, nine spent and not finished: P50 14.96 and P80 20.92', () => {
    expect(whileUnderWay(0.5, 9, 10, 0.3, 0.4472136)).toBeCloseTo(14.964838701, 6);
    expect(whileUnderWay(0.8, 9, 10, 0.3, 0.4472136)).toBeCloseTo(20.9236721238, 6);
  });

  it('stays above what is spent, even after a clock left running for a week', () => {
    const far = whileUnderWay(0.5, 10_000, 10, 0.3, 0.45);
    expect(far).toBeGreaterThan(10_000);
    expect(whileUnderWay(0.8, 10_000, 10, 0.3, 0.45)).toBeGreaterThan(far);
  });

  const plan = (finishedMinutes?: number, soFarMinutes?: number) => ({
    garmentType: 'jacket',
    operations: [
      { kind: 'pad stitch', plannedMinutes: 60, finishedMinutes, soFarMinutes },
      { kind: 'pockets', plannedMinutes: 90 },
      { kind: 'lining', plannedMinutes: 120 },
    ],
  });
  const lesson = fitLesson([]);
  const rest = (...news: [number?, number?]) => predict(lesson, plan(...news)).operations[2]!['0.5']!;

  it('a finished operation that ran long lifts the rest, one that ran short lowers it', () => {
    expect(rest(120)).toBeGreaterThan(rest(undefined) * 1.05);
    expect(rest(30)).toBeLessThan(rest(undefined) * 0.95);
    expect(rest(120) / rest(undefined)).toBeLessThan(2);
  });

  it('a slip of the pen is believed less: tenfold moves the rest less than threefold', () => {
    expect(rest(60_000)).toBeLessThan(rest(180) * 1.2);
  });

  it('a slow start moves the rest, by less than itself, and a quick look moves nothing', () => {
    expect(rest(undefined, 120)).toBeGreaterThan(rest(undefined) * 1.02);
    expect(rest(undefined, 120)).toBeLessThan(rest(undefined) * 2);
    expect(rest(undefined, 5)).toBeCloseTo(rest(undefined), 0);
  });

  it('the total counts what is spent, and rises with the certainty', () => {
    for (const garment of [plan(120), plan(undefined, 120), plan(undefined, 5000)]) {
      const { total } = predict(lesson, garment);
      expect(total['0.5']).toBeGreaterThan((garment.operations[0]!.finishedMinutes ?? 0) + 100);
      expect(total['0.8']).toBeGreaterThan(total['0.5']!);
      expect(total['0.9']).toBeGreaterThan(total['0.8']!);
    }
  });

  it('many under way at once: sixteen times as many draws say the same within three per cent', () => {
    const garment = {
      garmentType: 'jacket',
      operations: [30, 45, 60, 75, 90, 120].map((plannedMinutes, i) => ({
        kind: `k${i}`,
        plannedMinutes,
        ...(i < 4 ? { soFarMinutes: plannedMinutes * (0.4 + 0.3 * i) } : {}),
      })),
    };
    const few = predict(lesson, garment);
    const many = predict(lesson, garment, [0.5, 0.8, 0.9], 65_536);
    for (const q of ['0.5', '0.8', '0.9'])
      expect(Math.abs(few.total[q]! / many.total[q]! - 1)).toBeLessThan(0.03);
  });

  it('the total of one operation under way is that operation', () => {
    const only = {
      garmentType: 'jacket',
      operations: [{ kind: 'hem', plannedMinutes: 60, soFarMinutes: 80 }],
    };
    const forecast = predict(lesson, only);
    expect(forecast.total['0.8']).toBeCloseTo(forecast.operations[0]!['0.8']!, 9);
    expect(forecast.chanceOver(forecast.total['0.8']!)).toBeCloseTo(0.2, 9);
  });
});
