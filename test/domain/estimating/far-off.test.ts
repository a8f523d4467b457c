import { describe, expect, it } from 'vitest';
import { farOff, farOffAmongOthers, near } from '../../../src/domain/estimating/far-off.js';
import { garmentHours } from '../../../src/domain/estimating/garment-hours.js';
import type { PastGarment } from '../../../src/domain/estimating/lesson/history.js';
import { fitLesson } from '../../../src/domain/estimating/lesson/lesson.js';
import { trueHours } from '../../../src/domain/estimating/true-hours.js';
import { aStudio } from '../../reference/estimating/studio.js';

describe('a garment far off from the others', () => {
  const eight = [52, 55, 56, 58, 60, 61, 63, 66];

  it('is the one typed ten-fold, or the 560 hours of one winter; nobody else', () => {
    expect(near([...eight, 560])).toEqual(eight);
    expect(near([...eight, 5.6])).toEqual(eight);
    expect(near([...eight, 120, 30])).toEqual([...eight, 120, 30]);
  });

  it('is nobody among fewer than five, among equals, and never everybody', () => {
    expect(farOff([50, 560])).toEqual([false, false]);
    expect(farOffAmongOthers(10, [1, 1, 10])).toBe(false);
    const twelve = [0.9, 1, 1.1, 1.2, 0.8, 1, 1.3, 0.7, 1, 1.1, 1, 10];
    expect([10, 5.1, 4.9, 0.25, 0.19].map((one) => farOffAmongOthers(one, twelve))).toEqual([
      true,
      true,
      false,
      false,
      true,
    ]);
    expect(near([7, 7, 7, 7, 7, 7])).toHaveLength(6);
    expect(near([1, 10, 100, 1000, 10_000]).length).toBeGreaterThan(0);
  });

  it('moves the even-chance hours of a price by under 3 %, from a notebook as by operation', () => {
    const lesson = fitLesson([]);
    const plan = { garmentType: 'jacket', operations: [{ kind: 'all', plannedMinutes: 3600 }] };
    const at = (hours: readonly number[]): number =>
      garmentHours({ plan, lesson, notebook: hours.map((one) => ({ minutes: one * 60 })) }).at(0.5);
    expect(Math.abs(at([...eight, 560]) / at(eight) - 1)).toBeLessThan(0.03);
    // By operation: one of ten operations of one of twelve garments was typed ten-fold.
    const garment = (slip: number) => ({
      garmentType: 'jacket',
      operations: Array.from({ length: 10 }, (_, kind) => ({
        kind: `k${kind}`,
        plannedMinutes: 60,
        actualMinutes: kind === 3 ? 66 * slip : 60 + kind,
      })),
    });
    const past = (slip: number) => Array.from({ length: 12 }, (_, i) => garment(i === 5 ? slip : 1));
    const next = {
      garmentType: 'jacket',
      operations: Array.from({ length: 10 }, (_, kind) => ({ kind: `k${kind}`, plannedMinutes: 60 })),
    };
    const even = (slip: number): number =>
      garmentHours({ plan: next, lesson: fitLesson(past(slip)) }).at(0.5);
    expect(Math.abs(even(10) / even(1) - 1)).toBeLessThan(0.03);
  });
});

/** Garments of one type with all their scatter: 12 operations each, every one of a kind of its own, 56 h planned. */
const jackets = (seed: number, garments: number): PastGarment[] =>
  aStudio(seed, { garments, types: 1, kinds: 1 }).map(({ operations }) => ({
    garmentType: 'jacket',
    operations: operations.map(({ plannedMinutes, actualMinutes }, i) => ({
      kind: `k${i}`,
      plannedMinutes: 280,
      actualMinutes: (280 * actualMinutes) / plannedMinutes,
    })),
  }));
const tenfold = (garment: PastGarment, only?: number): PastGarment => ({
  ...garment,
  operations: garment.operations.map((operation, i) =>
    only === undefined || i === only
      ? { ...operation, actualMinutes: operation.actualMinutes * 10 }
      : operation,
  ),
});
const next = {
  garmentType: 'jacket',
  operations: Array.from({ length: 12 }, (_, i) => ({ kind: `k${i}`, plannedMinutes: 280 })),
};
const foretold = (history: readonly PastGarment[]) =>
  garmentHours({ plan: next, lesson: fitLesson(history) });

describe('in the full model', () => {
  for (const garments of [5, 8, 20])
    it(`one of 560 h beside ${garments} others moves no hour of the next`, () => {
      for (const seed of [1, 2, 3]) {
        const others = jackets(seed, garments);
        const winter = tenfold(others[1]!);
        const along = foretold([...others.slice(0, 3), winter, ...others.slice(3)]);
        expect(Math.abs(along.at(0.5) / foretold(others).at(0.5) - 1)).toBeLessThan(0.03);
        expect(Math.abs(along.at(0.9) / foretold(others).at(0.9) - 1)).toBeLessThan(0.03);
        expect(along.rests.garments).toBe(garments);
      }
    });

  for (const garments of [3, 4, 5, 8, 20])
    it(`one line typed ten-fold in one of ${garments} moves the even-chance hours by under 3 %`, () => {
      for (const seed of [1, 2, 3]) {
        const right = jackets(seed, garments);
        const slip = right.map((garment, i) => (i === 2 ? tenfold(garment, 3) : garment));
        expect(Math.abs(foretold(slip).at(0.5) / foretold(right).at(0.5) - 1)).toBeLessThan(0.03);
      }
    });

  it('follows a large garment that kept to its large plan, and a type that always overruns five-fold', () => {
    const usual = jackets(1, 6);
    const gown = {
      garmentType: 'jacket',
      operations: usual[0]!.operations.map((one) => ({
        ...one,
        plannedMinutes: one.plannedMinutes * 10,
        actualMinutes: one.actualMinutes * 10,
      })),
    };
    expect(foretold([...usual, gown]).rests.garments).toBe(7);
    const five = usual.map((garment) => ({
      ...garment,
      operations: garment.operations.map((one) => ({ ...one, actualMinutes: one.actualMinutes * 5 })),
    }));
    expect(foretold(five).rests.garments).toBe(6);
    expect(foretold(five).at(0.5)).toBeGreaterThan(3 * foretold(usual).at(0.5));
  });
});

describe('totals that are all alike', () => {
  it('keep even below 4 in 5 below 9 in 10, and no figure is none', () => {
    for (const hours of [[60], [60, 60], Array.from({ length: 30 }, () => 60)]) {
      const told = trueHours({ hours: near(hours) });
      const notebook = garmentHours({
        plan: next,
        lesson: fitLesson([]),
        notebook: hours.map((one) => ({ minutes: one * 60 })),
      });
      for (const [even, four, nine] of [
        [told.next['0.5'], told.next['0.8'], told.next['0.9']],
        [notebook.at(0.5), notebook.at(0.8), notebook.at(0.9)],
      ] as const) {
        expect(even).toBeGreaterThan(0);
        expect(even).toBeLessThan(four);
        expect(four).toBeLessThan(nine);
        expect(Number.isFinite(nine)).toBe(true);
      }
    }
  });
});
