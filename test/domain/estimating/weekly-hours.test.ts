import { describe, expect, it } from 'vitest';
import { promisedByWeek } from '../../../src/domain/estimating/promise/by-week.js';
import { fittingGaps } from '../../../src/domain/estimating/promise/fitting-gaps.js';
import { simulate } from '../../../src/domain/estimating/promise/simulate.js';
import { weekdayOf, weeklyHours } from '../../../src/domain/estimating/promise/weekly-hours.js';
import { addDays } from '../../../src/domain/kernel/calendar-date.js';

/** A Monday. */
const TODAY = '2026-03-02';
const none = { worked: [], closedDays: [] };

describe('the weekly hours of the bench', () => {
  it('are the card’s over Monday to Friday while nothing was worked', () => {
    const hours = weeklyHours({ today: TODAY, ...none, byCard: 1500 });
    expect(hours.minutesOn).toEqual([300, 300, 300, 300, 300, 0, 0]);
    expect(hours.weeks).toBe(0);
    expect(weeklyHours({ today: TODAY, ...none, byCard: 0 }).minutesOn).toEqual([0, 0, 0, 0, 0, 0, 0]);
  });

  it('draw what was worked to the card with four weeks of weight', () => {
    // Eight Mondays of 500 minutes: (4 · 300 + 8 · 500) ÷ 12; Saturdays of 60: 8 · 60 ÷ 12; the other days never.
    const worked = Array.from({ length: 8 }, (_, week) => [
      { on: addDays(TODAY, -7 * (week + 1)), inGarments: 500 },
      { on: addDays(TODAY, -7 * (week + 1) + 5), inGarments: 60 },
    ]).flat();
    const { minutesOn, weeks } = weeklyHours({ today: TODAY, worked, closedDays: [], byCard: 1500 });
    expect(minutesOn[0]).toBeCloseTo(5200 / 12, 9);
    expect(minutesOn[1]).toBeCloseTo(100, 9);
    expect(minutesOn[5]).toBeCloseTo(40, 9);
    expect(weeks).toBe(8);
  });

  it('leave closed days, today, reversals and what is long ago out', () => {
    const worked = [
      { on: addDays(TODAY, -14), inGarments: 400 },
      { on: addDays(TODAY, -13), inGarments: 100 },
      { on: addDays(TODAY, -13), inGarments: -100 },
      { on: TODAY, inGarments: 900 },
      { on: addDays(TODAY, -92), inGarments: 900 },
    ];
    const closedDays = [addDays(TODAY, -7), addDays(TODAY, -14)];
    const { minutesOn } = weeklyHours({ today: TODAY, worked, closedDays, byCard: 0 });
    // One Monday was closed and idle; the other was closed and worked all the same.
    expect(minutesOn[0]).toBe(400);
    expect(minutesOn[1]).toBe(0);
  });

  it('know the weekday', () => {
    expect([TODAY, '2026-03-08', '1969-12-31'].map(weekdayOf)).toEqual([0, 6, 2]);
  });
});

describe('waiting for fittings', () => {
  const work = (left: number) => ({ left, isFitting: false, isFinished: left === 0 });
  const fitting = { left: 60, isFitting: true, isFinished: false };

  it('stands where the plan has its fittings, seven days where no day is named', () => {
    expect(fittingGaps([work(340), fitting, work(600)], 0, [])).toEqual([{ after: 0.34, days: 7 }]);
    expect(fittingGaps([work(340), fitting, work(600)], 0, ['2026-03-20'])).toEqual([
      { after: 0.34, days: 7, on: '2026-03-20' },
    ]);
  });

  it('counts a fitting that was held though nobody marked its operation', () => {
    expect(fittingGaps([work(340), fitting, work(600)], 1, [])).toEqual([]);
    expect(fittingGaps([], 0, ['2026-03-20'])).toEqual([]);
  });

  it('spreads fittings the plan knows nothing of', () => {
    const gaps = fittingGaps([work(900)], 0, ['2026-03-20', '2026-03-27']);
    expect(gaps.map(({ after }) => after)).toEqual([1 / 3, 2 / 3]);
  });

  it('goes on on the agreed day, or after the usual wait where the work comes too late for it', () => {
    const calendar = { from: TODAY, minutesOn: [400, 400, 400, 400, 400, 0, 0], closedDays: [] };
    const one = { ref: 'jacket', minutesAt: () => 800, inCommon: 0 };
    const on = (day: string) =>
      simulate([{ ...one, gaps: [{ after: 0.5, days: 7, on: day }] }], calendar, 16).at('jacket', 0.5);
    expect(on('2026-03-05')).toBe('2026-03-05');
    expect(on('2026-03-02')).toBe('2026-03-09');
  });
});

describe('hours promised against hours there are', () => {
  it('go week by week, what is overdue with the first, what is later told apart', () => {
    const calendar = {
      from: '2026-03-04',
      minutesOn: [100, 100, 100, 100, 100, 0, 0],
      closedDays: ['2026-03-09'],
    };
    const { weeks, later } = promisedByWeek(
      [
        { dueOn: '2026-02-01', minutes: 50 },
        { dueOn: '2026-03-08', minutes: 300 },
        { dueOn: '2026-03-13', minutes: 10 },
        { dueOn: '2026-09-01', minutes: 77 },
      ],
      calendar,
      2,
    );
    expect(weeks).toEqual([
      { from: '2026-03-04', to: '2026-03-08', promised: 350, there: 300, spare: -50 },
      { from: '2026-03-09', to: '2026-03-15', promised: 10, there: 400, spare: 340 },
    ]);
    expect(later).toBe(77);
  });
});
