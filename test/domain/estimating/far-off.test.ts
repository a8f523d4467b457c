import { describe, expect, it } from 'vitest';
import { farOff, near } from '../../../src/domain/estimating/far-off.js';
import { garmentHours } from '../../../src/domain/estimating/garment-hours.js';
import { fitLesson } from '../../../src/domain/estimating/lesson/lesson.js';

describe('a garment far off from the others', () => {
  const eight = [52, 55, 56, 58, 60, 61, 63, 66];

  it('is the one typed ten-fold, or the 560 hours of one winter; nobody else', () => {
    expect(near([...eight, 560])).toEqual(eight);
    expect(near([...eight, 5.6])).toEqual(eight);
    expect(near([...eight, 120, 30])).toEqual([...eight, 120, 30]);
  });

  it('is nobody among fewer than five, among equals, and never everybody', () => {
    expect(farOff([50, 560])).toEqual([false, false]);
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
