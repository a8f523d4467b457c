import { describe, expect, it } from 'vitest';
import { leavingOrder, weeklyMinutes } from '../../../../src/domain/commissions/landing/leaving.js';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { euro } from './a-garment.js';

const work = (dueOn: string | undefined, even: number, fourInFive = even * 1.3) => ({
  dueOn,
  even,
  fourInFive,
});
const words = (works: ReturnType<typeof work>[], weekly = 1260, today = '2026-03-02') =>
  leavingOrder(works, weekly, today).map(({ readiness }) => readiness);

// 21 hours a week are 180 minutes a day; ten days hold 1,800 minutes.
describe('which garments will be ready', () => {
  it('comfortable with hours to spare, tight where 4 in 5 does not fit, late where even chance does not', () => {
    expect(words([work('2026-03-12', 1200)])).toEqual(['comfortable']);
    expect(words([work('2026-03-12', 1300)])).toEqual(['tight']);
    expect(words([work('2026-03-12', 1799)])).toEqual(['tight']);
    expect(words([work('2026-03-12', 1801)])).toEqual(['late']);
    expect(words([work('2026-03-01', 5)])).toEqual(['late']);
    expect(words([work('2026-03-02', 100), work('2026-03-02', 90)])).toEqual(['comfortable', 'late']);
  });

  it('what leaves before is made before', () => {
    // 5 days hold 900: 800 at even chance fits, 1,040 does not. 10 days hold 1,800: 1,600 fits, 2,080 does not.
    expect(words([work('2026-03-07', 800), work('2026-03-12', 800)])).toEqual(['tight', 'tight']);
    expect(words([work('2026-03-12', 1100), work('2026-03-12', 1100)])).toEqual(['comfortable', 'late']);
    expect(
      leavingOrder([work('2026-03-07', 400, 500), work('2026-03-12', 300, 400)], 1260, '2026-03-02'),
    ).toEqual([
      { readiness: 'comfortable', needed: 500, there: 900 },
      { readiness: 'comfortable', needed: 900, there: 1800 },
    ]);
  });

  it('nothing left is comfortable; no day and no hours are said', () => {
    expect(words([work('2026-03-03', 0, 0)], 0)).toEqual(['comfortable']);
    expect(words([work('2026-03-03', 10)], 0)).toEqual(['no-hours']);
    expect(words([work(undefined, 10)])).toEqual(['no-day']);
  });

  it('weekly hours are those that go into garments, of everybody', () => {
    const year = {
      weeks: new Decimal(46),
      hoursAWeek: new Decimal(34),
      productiveShare: new Decimal('0.62'),
    };
    const person = { name: 'Odalys Fenwright', pay: euro('0.00'), onCosts: [], perHourByMode: {} };
    const workings = { currency: 'EUR', people: [{ ...person, year }, person], overhead: [] };
    // 34 h × 62 % = 21.08 h
    expect(weeklyMinutes({ workings })).toBeCloseTo(1264.8, 9);
  });
});
