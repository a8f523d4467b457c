import { describe, expect, it } from 'vitest';
import { seeded } from '../../../src/domain/estimating/chance/draws.js';
import { normalQuantile } from '../../../src/domain/estimating/chance/normal.js';
import { studentQuantile } from '../../../src/domain/estimating/chance/student.js';
import { estimateHours, predict, predictAll } from '../../../src/domain/estimating/forecast/hours.js';
import type { PastGarment } from '../../../src/domain/estimating/lesson/history.js';
import { fitLesson, type Lesson } from '../../../src/domain/estimating/lesson/lesson.js';
import { aStudio } from './studio.js';

const one = (kind: string, more = {}) => ({
  garmentType: 'jacket',
  operations: [{ kind, plannedMinutes: 100, ...more }],
});
const sewn = (ratio: number, count: number): PastGarment[] => {
  const next = seeded(7);
  const wobble = () => Math.exp(0.2 * normalQuantile((next() * 998 + 1) / 1000));
  return Array.from({ length: count }, () => ({
    garmentType: 'jacket',
    operations: ['body', 'lining', 'collar'].map((kind) => ({
      kind,
      plannedMinutes: 100,
      actualMinutes: 100 * ratio * wobble(),
    })),
  }));
};

describe('with no history', () => {
  it('is the prior: median e exp(m0), variance the sum of the starting ones', () => {
    // The starting values are judgement; the sum of their variances is arithmetic, and Satterthwaite (1946) gives the
    // degrees of freedom of the t.
    const variance = 0.35 ** 2 + 0.1 ** 2 + 0.15 ** 2 + 0.1 ** 2;
    const degrees = (variance + 0.04 + 0.1225) ** 2 / (variance ** 2 / 4 + 0.04 ** 2 / 4 + 0.1225 ** 2 / 4);
    const forecast = estimateHours({ garment: one('body') });
    expect(forecast.rests).toEqual({ garments: 0, ofThisType: 0 });
    expect(forecast.total['0.5']).toBeCloseTo(100 * Math.exp(0.1), 9);
    expect(forecast.total['0.8']).toBeCloseTo(
      100 * Math.exp(0.1 + studentQuantile(0.8, degrees) * Math.sqrt(variance + 0.04 + 0.1225)),
      9,
    );
  });

  it('the first-run answer moves the middle; a starting value taken unchanged is not moved', () => {
    const middle = (overruns: 'no' | 'a-little' | 'a-lot' | 'unknown', more = {}) =>
      estimateHours({ garment: one('body', more), overruns }).total['0.5']!;
    expect(middle('no')).toBeCloseTo(100, 9);
    expect(middle('a-little')).toBeCloseTo(100 * Math.exp(0.05), 9);
    expect(middle('a-lot')).toBeCloseTo(100 * Math.exp(0.2), 9);
    expect(middle('unknown')).toBeCloseTo(100 * Math.exp(0.1), 9);
    expect(middle('a-lot', { fromStartingValues: true })).toBeCloseTo(100, 9);
  });

  it('a wider starting spread keeps more back', () => {
    const kept = (startingSpread?: number) =>
      estimateHours({ garment: one('body', { startingSpread }) }).keptBack['0.8']!;
    expect(kept(0.8)).toBeGreaterThan(kept(0.35));
    expect(kept(0.35)).toBeCloseTo(kept(undefined), 9);
    expect(kept(0.1)).toBeLessThan(kept(0.35));
  });
});

describe('with history', () => {
  it('finds a steady overrun and loses the first-run answer', () => {
    for (const overruns of ['no', 'a-lot'] as const) {
      const lesson = fitLesson(sewn(1.3, 40), { overruns });
      expect(Math.abs(predict(lesson, one('body')).total['0.5']! / 130 - 1)).toBeLessThan(0.08);
      const wide = estimateHours({ garment: one('body') });
      const narrow = predict(lesson, one('body'));
      expect(narrow.keptBack['0.8']! / narrow.total['0.5']!).toBeLessThan(
        0.6 * (wide.keptBack['0.8']! / wide.total['0.5']!),
      );
    }
  });

  it('says on how many garments it rests', () => {
    const history = [
      ...sewn(1.1, 5),
      { garmentType: 'coat', operations: [{ kind: 'body', plannedMinutes: 0, actualMinutes: 9 }] },
    ];
    expect(estimateHours({ history, garment: one('body') }).rests).toEqual({ garments: 5, ofThisType: 5 });
  });

  it('one tenfold typing error among forty garments moves the middle by less than 3 %', () => {
    const clean = sewn(1.1, 40);
    const slip = clean.map((garment, i) =>
      i === 30
        ? {
            ...garment,
            operations: garment.operations.map((operation, j) =>
              j === 0 ? { ...operation, actualMinutes: operation.actualMinutes * 10 } : operation,
            ),
          }
        : garment,
    );
    const middle = (history: PastGarment[]) => estimateHours({ history, garment: one('body') }).total['0.5']!;
    expect(Math.abs(middle(slip) / middle(clean) - 1)).toBeLessThan(0.03);
  });

  it('garments that are all alike leave some doubt, and no figure that is none', () => {
    const alike = Array.from({ length: 12 }, () => ({
      garmentType: 'jacket',
      operations: ['body', 'lining'].map((kind) => ({ kind, plannedMinutes: 100, actualMinutes: 100 })),
    }));
    for (const history of [alike.slice(0, 2), alike]) {
      const { total, keptBack, byMode, doubt, chanceOver } = estimateHours({ history, garment: one('body') });
      const [even, four, nine] = [total['0.5']!, total['0.8']!, total['0.9']!];
      expect(even).toBeLessThan(four);
      expect(four).toBeLessThan(nine);
      expect(nine).toBeLessThan(300);
      const figures = [even, keptBack['0.8'], chanceOver(120), ...Object.values(doubt)];
      for (const figure of [...figures, ...Object.values(byMode).flatMap((at) => Object.values(at))])
        expect(Number.isFinite(figure)).toBe(true);
    }
    const { variances, effects } = fitLesson(alike);
    for (const figure of [...Object.values(variances), ...effects])
      expect(Number.isFinite(figure)).toBe(true);
  });

  it('many garments long ago do not swell the variances', () => {
    const { variances } = fitLesson(aStudio(3, { garments: 900, operations: 3 }));
    expect(Math.sqrt(variances.garment)).toBeLessThan(0.4);
    expect(Math.sqrt(variances.noise)).toBeLessThan(0.6);
  });

  it('survives being kept as JSON, and says the same', () => {
    const lesson = fitLesson(aStudio(1, { garments: 30 }));
    const kept = JSON.parse(JSON.stringify(lesson)) as Lesson;
    const garment = {
      garmentType: 't1',
      operations: [
        { kind: 'k1', plannedMinutes: 40 },
        { kind: 'new', plannedMinutes: 60 },
      ],
    };
    expect(predict(kept, garment).total).toEqual(predict(lesson, garment).total);
  });

  it('stops after about ten sweeps, and ends at the same place from an earlier lesson', () => {
    const history = aStudio(5, { garments: 60 });
    const cold = fitLesson(history);
    const warm = fitLesson(history, { from: cold });
    expect(cold.sweeps).toBeLessThan(15);
    expect(warm.sweeps).toBeLessThan(15);
    expect(Math.abs(warm.variances.garment / cold.variances.garment - 1)).toBeLessThan(0.02);
    expect(Math.abs(warm.variances.noise / cold.variances.noise - 1)).toBeLessThan(0.02);
  });
});

describe('whole garments', () => {
  const plan = (count: number) => ({
    garmentType: 'jacket',
    operations: Array.from({ length: count }, (_, i) => ({
      kind: `k${i}`,
      mode: ['hand', 'machine', 'press'][i % 3]!,
      plannedMinutes: 20 + ((i * 37) % 90),
    })),
  });
  const history = aStudio(2, { garments: 60 });

  it('doubt falls into three shares; priced minutes add up to the total', () => {
    const lesson = fitLesson(history);
    for (const forecast of [predict(lesson, plan(12)), estimateHours({ garment: plan(12) })]) {
      const { doubt, total, byMode } = forecast;
      expect(doubt.garment + doubt.history + doubt.operations).toBeCloseTo(1, 12);
      const priced = forecast.splitAt(0.8);
      expect(priced.total).toBeCloseTo(total['0.8']!, 9);
      expect(priced.operations.reduce((a, b) => a + b, 0)).toBeCloseTo(total['0.8']!, 7);
      expect(Object.values(priced.byMode).reduce((a, b) => a + b, 0)).toBeCloseTo(total['0.8']!, 7);
      expect(Object.keys(byMode)).toEqual(['hand', 'machine', 'press']);
      expect(forecast.chanceOver(total['0.8']!)).toBeCloseTo(0.2, 6);
      expect(forecast.chanceOver(total['0.5']!)).toBeCloseTo(0.5, 6);
    }
  });

  it('operations share their doubt: the total keeps back more than independent ones would', () => {
    const forecast = estimateHours({ garment: plan(30) });
    const apart = Math.sqrt(
      forecast.operations.reduce((sum, operation) => sum + (operation['0.8']! - operation['0.5']!) ** 2, 0),
    );
    expect(forecast.keptBack['0.8']).toBeGreaterThan(2 * apart);
  });

  it('two garments of one commission share the lesson but not their own effect', () => {
    const lesson = fitLesson(history);
    const alone = predict(lesson, plan(12));
    const both = predictAll(lesson, [plan(12), plan(12)]);
    expect(both.total['0.5']! / (2 * alone.total['0.5']!)).toBeCloseTo(1, 1);
    expect(both.keptBack['0.8']!).toBeLessThan(2 * alone.keptBack['0.8']!);
    expect(both.keptBack['0.8']!).toBeGreaterThan(Math.SQRT2 * 0.9 * alone.keptBack['0.8']!);
  });

  it('an operation worked in two modes is counted in both', () => {
    const operations = [{ kind: 'k1', plannedMinutes: 60, modes: { hand: 1, machine: 3 } }];
    const { byMode, splitAt } = estimateHours({ garment: { garmentType: 'jacket', operations } });
    expect(byMode.machine!['0.5']! / byMode.hand!['0.5']!).toBeCloseTo(3, 9);
    expect(splitAt(0.9).byMode.machine! / splitAt(0.9).byMode.hand!).toBeCloseTo(3, 9);
  });
});
