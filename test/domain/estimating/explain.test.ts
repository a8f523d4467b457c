import { describe, expect, it } from 'vitest';
import { explain } from '../../../src/domain/estimating/explain.js';
import { predict } from '../../../src/domain/estimating/forecast/hours.js';
import { fitLesson } from '../../../src/domain/estimating/lesson/lesson.js';
import { learningByRepeats } from '../../../src/domain/estimating/repeats.js';
import { worthTiming } from '../../../src/domain/estimating/time-next.js';

const past = (garmentType: string, ratios: readonly number[], repeat = 1) => ({
  garmentType,
  repeat,
  operations: ratios.map((ratio, kind) => ({
    kind: `kind ${kind}`,
    plannedMinutes: 50 * (kind + ratio),
    actualMinutes: 50 * (kind + ratio) * ratio,
  })),
});
const lesson = fitLesson([
  past('jacket', [1.1, 1.4, 1.2]),
  past('jacket', [1.2, 1.5, 1.1], 2),
  past('coat', [0.9, 1.3, 1.0]),
  past('jacket', [1.0, 1.6, 1.3]),
]);

describe('a planned time as a plain multiplication', () => {
  const plan = {
    garmentType: 'jacket',
    repeat: 3,
    operations: [
      { kind: 'kind 1', mode: 'hand', plannedMinutes: 480 },
      { kind: 'kind 0', mode: 'machine', plannedMinutes: 20, fromStartingValues: true, startingSpread: 0.3 },
      { kind: 'never seen', mode: 'hand', plannedMinutes: 45 },
      { kind: 'kind 2', mode: 'hand', plannedMinutes: 0 },
    ],
  };

  it('comes to the median the forecast gives, operation by operation', () => {
    const { medians } = predict(lesson, plan);
    const explained = explain(lesson, plan);
    expect(explained).toHaveLength(3);
    explained.forEach(({ minutes, plannedMinutes, factors }, i) => {
      expect(minutes / medians[i]!).toBeCloseTo(1, 10);
      expect(factors.reduce((product, { times }) => product * times, plannedMinutes)).toBe(minutes);
    });
    expect(explained.map(({ rows }) => rows)).toEqual([4, 4, 0]);
    expect(explained[0]?.factors.map(({ of }) => of)).toEqual([
      'usual',
      'type',
      'kind',
      'pair',
      'size',
      'repeat',
    ]);
    expect(explained[1]?.factors.map(({ of }) => of)).toContain('starting value');
    expect(explained[2]?.factors.map(({ of }) => of)).toEqual(['usual', 'type', 'repeat']);
  });

  it('is the starting value alone where nothing was made yet, and nothing where nothing is planned', () => {
    const [one] = explain(fitLesson([]), plan);
    expect(one?.factors.map(({ of }) => of)).toEqual(['usual']);
    expect(one?.factors[0]?.times).toBeCloseTo(Math.exp(0.1), 10);
    expect(explain(lesson, { garmentType: 'jacket', operations: [] })).toEqual([]);
  });
});

describe('which operation to time next', () => {
  const plan = {
    garmentType: 'jacket',
    operations: [
      { kind: 'kind 0', plannedMinutes: 60 },
      { kind: 'long and unknown', plannedMinutes: 600 },
      { kind: 'short and unknown', plannedMinutes: 10 },
    ],
  };

  it('is the long one nobody has timed; its share falls once it is timed, and the shares add up', () => {
    const before = worthTiming(lesson, plan);
    expect(before[0]?.kind).toBe('long and unknown');
    expect(before.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 10);
    const timed = { kind: 'long and unknown', plannedMinutes: 600, actualMinutes: 660 };
    const after = worthTiming(
      fitLesson(Array.from({ length: 12 }, () => ({ garmentType: 'jacket', operations: [timed] }))),
      plan,
    );
    expect(after.find(({ kind }) => kind === 'long and unknown')!.rows).toBe(12);
    expect(after.find(({ kind }) => kind === 'long and unknown')!.share).toBeLessThan(before[0]!.share);
    expect(worthTiming(lesson, { garmentType: 'jacket', operations: [] })).toEqual([]);
  });
});

describe('learning by repeats', () => {
  // Crawford's unit curve with lambda = -0.3: the second takes 2^-0.3 of the first.
  const history = Array.from({ length: 24 }, (_, i) => {
    const repeat = (i % 8) + 1;
    return past(
      'jacket',
      [1, 1.02, 0.98].map((ratio) => ratio * repeat ** -0.3),
      repeat,
    );
  });

  it('is told where it is more than noise', () => {
    const told = learningByRepeats(fitLesson(history), 21);
    expect(told?.eachDoubling).toBeGreaterThan(0.78);
    expect(told?.eachDoubling).toBeLessThan(0.86);
  });

  it('is not told where there were no repeats, or where they teach nothing', () => {
    expect(learningByRepeats(fitLesson([]), 0)).toBeUndefined();
    expect(learningByRepeats(lesson, 1)).toBeUndefined();
  });
});
