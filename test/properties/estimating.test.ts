import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalChance, normalQuantile } from '../../src/domain/estimating/chance/normal.js';
import { studentQuantile } from '../../src/domain/estimating/chance/student.js';
import { estimateHours } from '../../src/domain/estimating/forecast/hours.js';
import type { PastGarment, PlannedGarment } from '../../src/domain/estimating/lesson/history.js';
import { trueHours } from '../../src/domain/estimating/true-hours.js';

const RUNS = { numRuns: 40, seed: 20_260_301 };

const kind = fc.constantFrom('body', 'lining', 'collar', 'pockets', '__proto__', 'وشي', 'constructor');
const type = fc.constantFrom('jacket', 'coat', 'toString');
const minutes = fc.oneof(
  fc.constant(0),
  fc.integer({ min: 1, max: 1000 }),
  fc.double({ min: 0, max: 1e9, noNaN: true }),
);
const worked = fc.integer({ min: 1, max: 5000 });

const history: fc.Arbitrary<PastGarment[]> = fc.array(
  fc.record({
    garmentType: type,
    operations: fc.array(fc.record({ kind, plannedMinutes: minutes, actualMinutes: minutes }), {
      maxLength: 6,
    }),
  }),
  { maxLength: 12 },
);
const operation = fc.record(
  {
    kind,
    mode: fc.constantFrom('hand', 'machine', '__proto__'),
    plannedMinutes: minutes,
    soFarMinutes: fc.integer({ min: 0, max: 3000 }),
    finishedMinutes: fc.integer({ min: 0, max: 3000 }),
    startingSpread: fc.double({ min: 0, max: 1, noNaN: true }),
    fromStartingValues: fc.boolean(),
  },
  { requiredKeys: ['kind', 'plannedMinutes'] },
);
const garment: fc.Arbitrary<PlannedGarment> = fc.record({
  garmentType: type,
  operations: fc.array(operation, { maxLength: 8 }),
});
const calm: fc.Arbitrary<PlannedGarment> = fc.record({
  garmentType: type,
  operations: fc.array(
    fc.record({ kind, mode: fc.constantFrom('hand', 'machine'), plannedMinutes: worked }),
    {
      minLength: 1,
      maxLength: 8,
    },
  ),
});
const calmHistory: fc.Arbitrary<PastGarment[]> = fc.array(
  fc.record({
    garmentType: type,
    operations: fc.array(fc.record({ kind, plannedMinutes: worked, actualMinutes: worked }), {
      minLength: 1,
      maxLength: 6,
    }),
  }),
  { maxLength: 10 },
);

describe('an estimate of hours', () => {
  it('is a number, and even <= 4 in 5 <= 9 in 10, whatever the plan and the past', () => {
    fc.assert(
      fc.property(history, garment, (past, plan) => {
        const forecast = estimateHours({ history: past, garment: plan });
        const rows = [forecast.total, ...forecast.operations, ...Object.values(forecast.byMode)];
        for (const row of rows as Record<string, number>[]) {
          expect(Number.isFinite(row['0.5'])).toBe(true);
          expect(row['0.8']).toBeGreaterThanOrEqual(row['0.5']!);
          expect(row['0.9']).toBeGreaterThanOrEqual(row['0.8']!);
          expect(Number.isFinite(row['0.9'])).toBe(true);
        }
        const open = plan.operations.some((o) => o.plannedMinutes > 1e-3 && o.finishedMinutes === undefined);
        if (open) expect(forecast.total['0.9']).toBeGreaterThan(forecast.total['0.5']!);
        expect(Number.isFinite(forecast.chanceOver(100))).toBe(true);
        expect(forecast.splitAt(0.8).operations.every((share) => Number.isFinite(share))).toBe(true);
      }),
      RUNS,
    );
  });

  it('does not care about the unit: everything in seconds is sixty times everything in minutes', () => {
    fc.assert(
      fc.property(calmHistory, calm, (past, plan) => {
        const seconds = estimateHours({
          history: past.map((g) => ({
            ...g,
            operations: g.operations.map((o) => ({
              ...o,
              plannedMinutes: o.plannedMinutes * 60,
              actualMinutes: o.actualMinutes * 60,
            })),
          })),
          garment: {
            ...plan,
            operations: plan.operations.map((o) => ({ ...o, plannedMinutes: o.plannedMinutes * 60 })),
          },
        });
        const forecast = estimateHours({ history: past, garment: plan });
        for (const q of ['0.5', '0.8', '0.9'])
          expect(seconds.total[q]! / forecast.total[q]! / 60).toBeCloseTo(1, 6);
      }),
      RUNS,
    );
  });

  it('does not care about the order of the operations', () => {
    fc.assert(
      fc.property(calmHistory, calm, (past, plan) => {
        const turned = (g: PastGarment) => ({ ...g, operations: [...g.operations].reverse() });
        const forecast = estimateHours({ history: past, garment: plan });
        const other = estimateHours({
          history: past.map(turned),
          garment: { ...plan, operations: [...plan.operations].reverse() },
        });
        for (const q of ['0.5', '0.8', '0.9']) expect(other.total[q]! / forecast.total[q]!).toBeCloseTo(1, 6);
        forecast.medians.forEach((median, i) => {
          expect(other.medians.at(-1 - i)! / median).toBeCloseTo(1, 6);
        });
      }),
      RUNS,
    );
  });

  it('is the same twice', () => {
    fc.assert(
      fc.property(calmHistory, calm, (past, plan) => {
        const once = estimateHours({ history: past, garment: plan });
        expect(estimateHours({ history: past, garment: plan }).total).toEqual(once.total);
      }),
      { ...RUNS, numRuns: 10 },
    );
  });

  it('chance and total undo each other', () => {
    fc.assert(
      fc.property(calm, fc.double({ min: 0.02, max: 0.98, noNaN: true }), (plan, q) => {
        const forecast = estimateHours({ garment: plan });
        expect(forecast.chanceOver(forecast.totalAt(q))).toBeCloseTo(1 - q, 6);
      }),
      RUNS,
    );
  });

  it('takes 200 operations, and none', () => {
    const operations = Array.from({ length: 200 }, (_, i) => ({
      kind: `k${i}`,
      mode: 'hand',
      plannedMinutes: 1 + i,
    }));
    const { total } = estimateHours({ garment: { garmentType: 'coat', operations } });
    expect(total['0.9']).toBeGreaterThan(total['0.5']!);
    const none = estimateHours({ garment: { garmentType: 'coat', operations: [] } });
    expect(none.total).toEqual({ '0.5': 0, '0.8': 0, '0.9': 0 });
    expect(none.chanceOver(0)).toBe(0);
  });

  it('refuses what is no time', () => {
    for (const plannedMinutes of [-1, Number.NaN, Number.POSITIVE_INFINITY, 1e308])
      expect(() =>
        estimateHours({ garment: { garmentType: 'coat', operations: [{ kind: 'hem', plannedMinutes }] } }),
      ).toThrow(RangeError);
    for (const q of [0, 1, -0.5, Number.NaN])
      expect(() =>
        estimateHours({ garment: { garmentType: 'coat', operations: [] }, certainty: [q] }),
      ).toThrow(RangeError);
  });
});

describe('quantiles', () => {
  const chance = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true });

  it('rise, and are symmetrical', () => {
    fc.assert(
      fc.property(chance, chance, fc.double({ min: 1, max: 2e5, noNaN: true }), (p, q, nu) => {
        const [low, high] = p < q ? [p, q] : [q, p];
        fc.pre(high - low > 1e-7);
        expect(normalQuantile(high)).toBeGreaterThan(normalQuantile(low));
        expect(studentQuantile(high, nu)).toBeGreaterThan(studentQuantile(low, nu));
        expect(normalChance(normalQuantile(p))).toBeCloseTo(p, 12);
      }),
      { ...RUNS, numRuns: 200 },
    );
  });

  it('true hours scale with their unit and lie between the hours and the guess', () => {
    const hours = fc.array(fc.double({ min: 0.1, max: 500, noNaN: true }), { maxLength: 20 });
    fc.assert(
      fc.property(hours, fc.double({ min: 0.1, max: 500, noNaN: true }), (list, ownGuess) => {
        const told = trueHours({ hours: list, ownGuess });
        const sixty = trueHours({ hours: list.map((h) => h * 60), ownGuess: ownGuess * 60 });
        expect(sixty.next['0.8'] / told.next['0.8']).toBeCloseTo(60, 6);
        expect(told.typical.middle).toBeGreaterThanOrEqual(Math.min(ownGuess, ...list) * (1 - 1e-9));
        expect(told.typical.middle).toBeLessThanOrEqual(Math.max(ownGuess, ...list) * (1 + 1e-9));
        expect(told.next['0.9']).toBeGreaterThan(told.next['0.8']);
      }),
      { ...RUNS, numRuns: 200 },
    );
  });
});
