import { describe, expect, it } from 'vitest';
import { asTheLessonReads, progressOf } from '../../../../src/domain/commissions/landing/progress.js';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { anOperation } from '../an-extra.js';
import { minutesOn } from './a-garment.js';

describe('how far a garment has come', () => {
  const plan = [
    anOperation('lapels', 60),
    anOperation('sleeves', 120),
    anOperation('extra pocket', 40),
    anOperation('hem', 30),
  ];
  const progress = progressOf({
    plan,
    worked: [
      minutesOn('lapels', 50),
      minutesOn('lapels', 12, { cause: 'own error' }),
      minutesOn('lapels', 8, { cause: 'forgotten in the plan' }),
      minutesOn('lapels', 7, { cause: 'client asked' }),
      minutesOn('extra pocket', 20, { cause: 'client asked', extraId: 'x' }),
      minutesOn('extra pocket', 5, { cause: 'own error', extraId: 'x' }),
      minutesOn('hem', 9),
      minutesOn('gone from the plan', 11),
      minutesOn(undefined, 3),
    ],
    finished: new Set(['lapels']),
    leftOut: new Set(['hem']),
  });

  it('each minute is counted once: towards a line, as own error, or beside the plan', () => {
    expect(progress.operations.map(({ minutes, state }) => [minutes, state])).toEqual([
      [58, 'finished'],
      [0, 'to-do'],
      [20, 'under-way'],
    ]);
    expect(progress.ownError).toBe(17);
    expect(progress.beside).toBe(7 + 9 + 11 + 3);
    expect(progress.worked).toBe(125);
  });

  it('is read by the lesson with what is finished and what is under way', () => {
    const shares = [
      { mode: 'hand' as const, share: new Decimal('0.75') },
      { mode: 'press' as const, share: new Decimal('0.25') },
    ];
    const shared = { ...anOperation('sleeves', 120), modeShares: shares };
    const garment = asTheLessonReads(
      progressOf({
        plan: [plan[0]!, shared],
        worked: [minutesOn('lapels', 50)],
        finished: new Set(['lapels']),
        leftOut: new Set(),
      }),
      'lounge-jacket',
      1.5,
      3,
    );
    expect(garment).toMatchObject({ garmentType: 'lounge-jacket', repeat: 3 });
    expect(garment.operations[0]).toMatchObject({ plannedMinutes: 90, finishedMinutes: 50 });
    expect(garment.operations[1]).toMatchObject({ plannedMinutes: 180, modes: { hand: 0.75, press: 0.25 } });
    expect(garment.operations[1]).not.toHaveProperty('soFarMinutes');
  });
});
