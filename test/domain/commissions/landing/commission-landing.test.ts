import { describe, expect, it } from 'vitest';
import { commissionLanding } from '../../../../src/domain/commissions/landing/commission-landing.js';
import { CHANCES, landingOf } from '../../../../src/domain/commissions/landing/landing.js';
import { fitLesson } from '../../../../src/domain/estimating/lesson/lesson.js';
import { anOperation } from '../an-extra.js';
import { anHour, euro, minutesOn, underWay } from './a-garment.js';

const lesson = fitLesson([]);
const garment = (more: Parameters<typeof underWay>[0]) => {
  const input = underWay(more);
  return { input, landing: landingOf(input, lesson, () => anHour, '2026-03-10') };
};

describe('where a commission will land', () => {
  const jacket = garment({
    plan: [anOperation('lapels', 60), anOperation('sleeves', 120), anOperation('collar', 90)],
    worked: [minutesOn('lapels', 90), minutesOn(undefined, 15)],
    finished: new Set(['lapels']),
    used: [{ on: '2026-03-02', cost: euro('40.00') }],
  });
  const waistcoat = garment({
    typeId: 'waistcoat',
    plan: [anOperation('fronts', 150), anOperation('back', 60)],
  });

  it('holds what its garments hold so far, and their prices', () => {
    const whole = commissionLanding([jacket, waistcoat], lesson, 'EUR');
    expect(whole.soFar.minutes.toString()).toBe('105');
    expect(whole.soFar.cost.toString()).toBe(jacket.landing.soFar.cost.toString());
    expect(whole.price.toString()).toBe('400.00');
  });

  it('4 in 5 of the whole is less than each one’s 4 in 5 together, and so far + left is the whole', () => {
    const whole = commissionLanding([jacket, waistcoat], lesson, 'EUR');
    const apart = jacket.landing.at['0.9'].minutes.plus(waistcoat.landing.at['0.9'].minutes);
    expect(whole.at['0.9'].minutes.lt(apart)).toBe(true);
    expect(whole.at['0.5'].minutes.lt(whole.at['0.8'].minutes)).toBe(true);
    for (const chance of CHANCES) {
      const { minutes, left, cost, profit } = whole.at[chance];
      expect(minutes.minus(left).minus(whole.soFar.minutes).abs().toNumber()).toBeLessThan(0.02);
      expect(cost.cost.plus(profit).toString()).toBe('400.00');
    }
  });

  it('of one garment is that garment', () => {
    const whole = commissionLanding([jacket], lesson, 'EUR');
    for (const chance of CHANCES) {
      expect(whole.at[chance].minutes.minus(jacket.landing.at[chance].minutes).abs().toNumber()).toBeLessThan(
        0.02,
      );
      expect(
        Math.abs(whole.at[chance].cost.cost.minus(jacket.landing.at[chance].cost.cost).minor),
      ).toBeLessThan(4);
    }
  });

  it('once all is worked is what it took', () => {
    const done = garment({
      plan: [anOperation('back', 60)],
      worked: [minutesOn('back', 70)],
      finished: new Set(['back']),
    });
    const whole = commissionLanding([done, done], lesson, 'EUR');
    expect(whole.at['0.9'].minutes.toString()).toBe('140');
    expect(commissionLanding([], lesson, 'EUR').at['0.5'].cost.cost.isZero()).toBe(true);
  });
});
