import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { promiseByMinutes } from '../../../src/domain/promising/promise-by-minutes.js';

const d = (number: string | number) => new Decimal(number);
/** 2 March 2026 is a Monday. 2,400 minutes a week are 480 a day. */
const asked = (garment: number | string, more: Partial<Parameters<typeof promiseByMinutes>[0]> = {}) =>
  promiseByMinutes({
    from: '2026-03-02',
    backlogMinutes: d(0),
    weeklyMinutes: d(2400),
    garmentMinutes: { '0.5': d(garment) },
    ...more,
  })['0.5'];

describe('a promise by plain division (constructed)', () => {
  it.each([
    ['one minute is done the same day', 1, '2026-03-02'],
    ['a full day ends that day', 480, '2026-03-02'],
    ['one minute more ends the next', 481, '2026-03-03'],
    ['a hair more ends the next', '480.0001', '2026-03-03'],
    ['a full week ends on Friday', 2400, '2026-03-06'],
    ['one minute more waits for Monday', 2401, '2026-03-09'],
    ['nothing to do is done at once', 0, '2026-03-02'],
  ])('%s', (_, minutes, date) => expect(asked(minutes)).toBe(date));

  it('works the backlog first: 4,800 + 1,000 minutes are 13 days, 18 March', () => {
    expect(asked(1000, { backlogMinutes: d(4800) })).toBe('2026-03-18');
  });

  it('skips closed days and weekends, and starts on the first open day', () => {
    expect(asked(480, { closedDays: ['2026-03-02', '2026-03-03'] })).toBe('2026-03-04');
    expect(asked(480, { from: '2026-03-07' })).toBe('2026-03-09');
    expect(asked(480, { closedDays: ['2026-03-07'] })).toBe('2026-03-02');
  });

  it('spreads the week over other days when told: Tuesday and Saturday, 1,200 each', () => {
    expect(asked(1200, { workingDays: [2, 6] })).toBe('2026-03-03');
    expect(asked(1201, { workingDays: [2, 6] })).toBe('2026-03-07');
  });

  it('counts right before 1970 and over a leap day', () => {
    expect(asked(480, { from: '1969-12-27' })).toBe('1969-12-29');
    expect(asked(960, { from: '2028-02-29' })).toBe('2028-03-01');
  });

  it('is exact where a day’s minutes have no end: 3 × 800/7 minutes over seven days are three days', () => {
    const everyDay = [1, 2, 3, 4, 5, 6, 7] as const;
    expect(asked(d(2400).div(7).toFixed(30), { weeklyMinutes: d(800), workingDays: everyDay })).toBe(
      '2026-03-04',
    );
  });

  it.each([
    ['no week', { weeklyMinutes: d(0) }, 'weeklyMinutes'],
    ['a negative backlog', { backlogMinutes: d(-1) }, 'backlogMinutes'],
    ['no day of the week', { workingDays: [] }, 'workingDays'],
    ['a hundred years', { backlogMinutes: d('1e9') }, 'weeklyMinutes'],
    ['a negative garment', { garmentMinutes: { '0.8': d(-1) } }, 'garmentMinutes.0.8'],
  ])('refuses %s by its field', (_, more, field) => {
    expect(() => asked(100, more)).toThrow(
      expect.objectContaining({ fields: [expect.objectContaining({ field })] }),
    );
  });
});
