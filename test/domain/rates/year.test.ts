import { describe, expect, it } from 'vitest';
import { yearsGarments, yearsHours } from '../../../src/domain/rates/year.js';
import type { FrozenReckoning } from '../../../src/domain/reckoning/frozen-reckoning.js';

const reckoning = (price: string, profit: string, minutes: string, more: object = {}): FrozenReckoning => ({
  currency: 'EUR',
  price,
  quotedPrice: price,
  quotedProfit: profit,
  actualProfit: profit,
  shouldHaveCharged: price,
  earnedPerHour: null,
  quotedPerHour: null,
  bridge: [],
  cost: {
    minutes,
    materials: '100.00',
    materialsAtReplacement: '130.00',
    labour: '200.00',
    machine: '0.00',
    overhead: '0.00',
    expenses: '0.00',
    cost: '300.00',
  },
  operations: [],
  byMode: [],
  byCause: [],
  bastingMinutes: 0,
  takenAsPlanned: [],
  ...more,
});

describe('a year', () => {
  it('counts every minute once, by mode and by kind', () => {
    const hours = yearsHours(
      [
        { mode: 'hand', cause: undefined, minutes: 90 },
        { mode: 'press', cause: undefined, minutes: 20 },
        { mode: 'hand', cause: 'own error', minutes: 30 },
      ],
      [
        { away: 'teaching', minutes: 60 },
        { away: undefined, minutes: 5 },
      ],
    );
    expect(hours).toMatchObject({ onGarments: 140, ownError: 30, away: 65 });
    expect(hours.byMode.find(({ mode }) => mode === 'hand')?.minutes).toBe(120);
    expect(hours.byMode.reduce((sum, { minutes }) => sum + minutes, 0)).toBe(140);
    expect(hours.byKind.reduce((sum, { minutes }) => sum + minutes, 0)).toBe(65);
  });

  it('adds its garments up and puts the type that earned most an hour first', () => {
    const told = yearsGarments(
      [
        { typeId: 'cape', reckoning: reckoning('500.00', '100.00', '600') },
        { typeId: 'stays', reckoning: reckoning('900.00', '400.00', '600') },
        { typeId: 'cape', reckoning: reckoning('700.00', '300.00', '1800') },
        { typeId: 'stays', reckoning: undefined },
        { typeId: 'stays', reckoning: reckoning('1.00', '1.00', '60', { currency: 'GBP' }) },
      ],
      'EUR',
    );
    expect(told).toMatchObject({ garments: 5, without: 2 });
    expect(told.price.toString()).toBe('2100.00');
    expect(told.profit.toString()).toBe('800.00');
    expect(told.materialsAtReplacement.toString()).toBe('390.00');
    // Stays: (400 + 200) ÷ 10 h; capes: (100 + 200 + 300 + 200) ÷ 40 h.
    expect(told.byType.map(({ typeId, perHour }) => [typeId, perHour.toString()])).toEqual([
      ['stays', '60.00'],
      ['cape', '20.00'],
    ]);
  });

  it('of nothing is nothing', () => {
    expect(yearsGarments([], 'EUR').price.toString()).toBe('0.00');
    expect(yearsHours([], []).onGarments).toBe(0);
  });
});
