import { describe, expect, it } from 'vitest';
import { fitLesson } from '../../../src/domain/estimating/lesson/lesson.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { operationLessons } from '../../../src/domain/lessons/by-operation.js';
import { mendingShare } from '../../../src/domain/lessons/mending-share.js';
import {
  asClosed,
  type PastByOperation,
  type PastOperation,
  pastWorkText,
  readPastWork,
  teachesByOperation,
  teachingHistory,
} from '../../../src/domain/lessons/past-work.js';

const work = (over: Partial<PastOperation> = {}): PastOperation => ({
  kind: 'pad-stitching',
  name: 'Pad stitch lapels',
  mode: 'hand',
  stage: 'make',
  actualMinutes: 130,
  plannedMinutes: 100,
  usualMinutes: undefined,
  ...over,
});
const past = (operations: readonly PastOperation[], finishedOn?: string): PastByOperation => ({
  id: `past ${finishedOn ?? 'without a day'}`,
  version: 1,
  typeId: 'lounge-jacket',
  hours: new Decimal(2),
  plannedHours: undefined,
  finishedOn,
  note: '',
  operations,
});

describe('a past garment known by operation', () => {
  it('is written and read back whole, with and without a plan', () => {
    const whole = [work(), work({ plannedMinutes: undefined, usualMinutes: 90 }), work({ actualMinutes: 0 })];
    expect(readPastWork(pastWorkText(whole))).toEqual(whole);
    for (const broken of ['', '{', 'null', '{"work":2,"operations":[]}', '{"work":1,"operations":[{}]}'])
      expect(() => readPastWork(broken)).toThrow('cannot be read');
    expect(() => readPastWork(pastWorkText([work({ actualMinutes: -1 })]))).toThrow('cannot be read');
  });

  it('is held against its own plan, else against the usual one, and else teaches no ratio', () => {
    const [one] = teachingHistory(
      [],
      [
        past([
          work(),
          work({ kind: 'hem', plannedMinutes: undefined, usualMinutes: 90 }),
          work({ kind: 'odd', plannedMinutes: undefined }),
        ]),
      ],
    );
    expect(one?.operations.map(({ kind, plannedMinutes }) => [kind, plannedMinutes])).toEqual([
      ['pad-stitching', 100],
      ['hem', 90],
    ]);
    expect(teachesByOperation([work({ plannedMinutes: undefined })])).toBe(false);
    expect(teachesByOperation([work({ actualMinutes: 0 })])).toBe(false);
    expect(teachingHistory([], [past([work({ plannedMinutes: undefined })])])).toEqual([]);
  });

  it('stands among the others by its day, and first of all without one', () => {
    const history = teachingHistory(
      [asClosed(past([work({ actualMinutes: 2 })], '2025-05-01'))],
      [past([work({ actualMinutes: 3 })], '2026-01-01'), past([work({ actualMinutes: 1 })])],
    );
    expect(history.map(({ operations }) => operations[0]?.actualMinutes)).toEqual([1, 2, 3]);
  });

  it('moves the fitted lesson toward what it took', () => {
    const history = teachingHistory(
      [],
      Array.from({ length: 12 }, (_, n) => past([work({ actualMinutes: 150 })], `2025-01-${10 + n}`)),
    );
    const [mean] = fitLesson(history, { overruns: 'unknown' }).effects;
    expect(mean).toBeGreaterThan(fitLesson([], { overruns: 'unknown' }).effects[0] ?? Number.NaN);
  });

  it('tells forgotten and left-out work apart, and never counts a usual plan as planned', () => {
    const closed = asClosed(
      past([
        work({ plannedMinutes: 0 }),
        work({ kind: 'vent', actualMinutes: 0 }),
        work({ kind: 'hem', plannedMinutes: undefined, usualMinutes: 90 }),
      ]),
    );
    expect(
      closed.operations.map(({ kind, forgotten, leftOut, plannedMinutes }) => [
        kind,
        forgotten,
        leftOut,
        plannedMinutes,
      ]),
    ).toEqual([
      ['pad-stitching', true, false, 0],
      ['vent', false, true, 100],
      ['hem', false, false, 0],
    ]);
    expect(operationLessons([closed]).find(({ kind }) => kind === 'hem')?.overrun).toBeUndefined();
    expect(mendingShare([]).share.isZero()).toBe(true);
  });
});
