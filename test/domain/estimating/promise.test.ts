import { describe, expect, it } from 'vitest';
import { movedPromises, simulate, type WorkAhead } from '../../../src/domain/estimating/promise/simulate.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { promiseByMinutes } from '../../../src/domain/promising/promise-by-minutes.js';

const FIVE_DAYS = [420, 420, 420, 420, 420, 0, 0];
const calendar = { from: '2026-03-02', minutesOn: FIVE_DAYS, closedDays: [] as string[] };
const sure = (ref: string, minutes: number, more: Partial<WorkAhead> = {}): WorkAhead => ({
  ref,
  minutesAt: () => minutes,
  inCommon: 0,
  gaps: [],
  ...more,
});
/** Even chance 1,000 minutes, spread 0.3 on the log scale: quantiles of a logistic, near enough to be told apart. */
const doubtful = (ref: string, inCommon = 0): WorkAhead =>
  sure(ref, 0, { minutesAt: (q) => 1000 * Math.exp(0.3 * Math.log(q / (1 - q))), inCommon });

describe('promises by simulation', () => {
  it('agree with the plain division where nothing is in doubt and nothing waits', () => {
    const divided = promiseByMinutes({
      from: '2026-03-02',
      backlogMinutes: new Decimal(3000),
      weeklyMinutes: new Decimal(2100),
      garmentMinutes: { '0.5': new Decimal(1234) },
      closedDays: ['2026-03-17'],
    });
    const played = simulate(
      [sure('backlog', 3000), sure('cape', 1234)],
      { ...calendar, closedDays: ['2026-03-17'] },
      64,
    );
    expect(played.at('cape', 0.5)).toBe(divided['0.5']);
    expect(played.at('cape', 0.9)).toBe(divided['0.5']);
  });

  it('come later the surer they are, and say how likely a day is', () => {
    const played = simulate([doubtful('jacket')], calendar);
    const [even, four, nine] = [0.5, 0.8, 0.9].map((q) => played.at('jacket', q));
    expect(even! < four! && four! <= nine!).toBe(true);
    expect(played.chanceBy('jacket', four!)).toBeGreaterThanOrEqual(0.8);
    expect(played.chanceBy('jacket', '2026-03-01')).toBe(0);
  });

  it('spread further where the doubt is common to all than where each has its own', () => {
    const many = (inCommon: number) => Array.from({ length: 12 }, (_, i) => doubtful(`g${i}`, inCommon));
    const own = simulate(many(0), calendar).at('g11', 0.9);
    const common = simulate(many(1), calendar).at('g11', 0.9);
    expect(common > own).toBe(true);
  });

  it('let the next garment go ahead while one waits for its fitting', () => {
    const waiting = sure('suit', 840, { gaps: [{ after: 0.5, days: 14 }] });
    const played = simulate([waiting, sure('cape', 420)], calendar, 16);
    expect(played.at('suit', 0.5)).toBe('2026-03-16');
    expect(played.at('cape', 0.5)).toBe('2026-03-03');
  });

  it('name those that move when a week is closed, or a rush goes first', () => {
    const works = [sure('a', 420), sure('b', 2100)];
    const before = simulate(works, calendar, 16);
    const week = ['2026-03-03', '2026-03-04', '2026-03-05', '2026-03-06', '2026-03-09'];
    const ill = simulate(works, { ...calendar, closedDays: week }, 16);
    expect(movedPromises(['a', 'b'], before, ill, 0.8)).toEqual([
      { ref: 'b', before: '2026-03-09', after: '2026-03-16' },
    ]);
    const rushed = simulate([sure('rush', 840), ...works], calendar, 16);
    expect(movedPromises(['a', 'b'], before, rushed, 0.8).map(({ ref }) => ref)).toEqual(['a', 'b']);
  });

  it('answer the same for ever, and refuse a week without hours or work without end', () => {
    const once = simulate([doubtful('a'), doubtful('b')], calendar);
    const again = simulate([doubtful('a'), doubtful('b')], calendar);
    expect([0.1, 0.5, 0.9].map((q) => once.at('b', q))).toEqual([0.1, 0.5, 0.9].map((q) => again.at('b', q)));
    expect(() => simulate([], { ...calendar, minutesOn: [0, 0, 0, 0, 0, 0, 0] })).toThrow('more than 0');
    expect(() => simulate([], { ...calendar, minutesOn: [Number.NaN, 0, 0, 0, 0, 0, 0] })).toThrow('seven');
    expect(() =>
      simulate([sure('a', 9_000_000)], { ...calendar, minutesOn: [1, 0, 0, 0, 0, 0, 0] }, 2),
    ).toThrow('twenty years');
    expect(() => once.at('nobody', 0.5)).toThrow('not among');
  });

  it('wait for a garment of no minutes until the first day only', () => {
    expect(simulate([sure('done', 0)], calendar, 4).at('done', 0.9)).toBe('2026-03-02');
  });
});
