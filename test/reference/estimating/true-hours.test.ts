import { describe, expect, it } from 'vitest';
import { learnt, trueHours } from '../../../src/domain/estimating/true-hours.js';

// Closed form of the normal mean and variance with a conjugate prior (Gelman et al., "Bayesian Data Analysis", 3rd
// edition 2013, section 3.3); the figures were computed with R 4.2.2 from the same formulae.
describe('true hours of a garment type', () => {
  const hours = [52.5, 61, 48, 70.5];

  it('learns from four garments and a guess of 50 hours', () => {
    const after = learnt(
      hours.map((h) => Math.log(h)),
      Math.log(50),
    );
    expect(after.mu).toBeCloseTo(4.02210475199, 11);
    expect(after.nu).toBe(8);
    expect(after.variance).toBeCloseTo(0.0438815637147, 12);
  });

  it('tells a typical one from the next one', () => {
    const { garments, typical, next } = trueHours({ hours, ownGuess: 50 });
    expect(garments).toBe(4);
    expect(typical.middle).toBeCloseTo(55.8185, 4);
    expect(typical.low80).toBeCloseTo(48.972, 4);
    expect(typical.high80).toBeCloseTo(63.6221, 4);
    expect(next['0.1']).toBeCloseTo(40.511, 4);
    expect(next['0.5']).toBeCloseTo(55.8185, 4);
    expect(next['0.8']).toBeCloseTo(68.4485, 4);
    expect(next['0.9']).toBeCloseTo(76.91, 4);
  });

  it('leans on the guess alone before the first garment', () => {
    const { garments, next, nextAt } = trueHours({ hours: [], ownGuess: 50 });
    expect(garments).toBe(0);
    expect(next['0.5']).toBeCloseTo(50, 10);
    expect(next['0.8']).toBeCloseTo(69.7351, 4);
    expect(next['0.9']).toBeCloseTo(85.9782, 4);
    expect(nextAt(0.9)).toBe(next['0.9']);
  });

  it('does without a guess, but not without both', () => {
    expect(trueHours({ hours: [40, 50] }).typical.middle).toBeCloseTo(Math.sqrt(2000), 10);
    expect(() => trueHours({ hours: [] })).toThrow(RangeError);
    expect(() => trueHours({ hours: [0], ownGuess: 50 })).toThrow(RangeError);
    expect(() => trueHours({ hours: [Number.NaN], ownGuess: 50 })).toThrow(RangeError);
  });
});
