import { describe, expect, it } from 'vitest';
import { leftOut } from '../../../src/domain/estimating/forgotten.js';
import { fitLesson } from '../../../src/domain/estimating/lesson/lesson.js';
import { closeGarment } from '../../../src/domain/lessons/close-garment.js';
import {
  type ClosedGarment,
  closedGarmentText,
  lessonsFrom,
  readClosedGarment,
} from '../../../src/domain/lessons/closed-garment.js';
import { anOperation } from '../commissions/an-extra.js';
import { minutesOn } from '../commissions/landing/a-garment.js';

const close = (more: Partial<Parameters<typeof closeGarment>[0]> = {}): ClosedGarment =>
  closeGarment({
    garmentId: 'g',
    commissionId: 'c',
    name: 'Jacket',
    typeId: 'lounge-jacket',
    closedOn: '2026-03-20',
    repeat: 1,
    plan: [anOperation('lapels', 60), anOperation('sleeves', 120), anOperation('hem', 30)],
    worked: [
      minutesOn('lapels', 70),
      minutesOn('lapels', 20, { cause: 'own error', on: '2026-03-04' }),
      minutesOn('sleeves', 130, { on: '2026-03-09' }),
      minutesOn(undefined, 25, {
        kind: 'inside pocket',
        name: 'Inside pocket',
        cause: 'forgotten in the plan',
      }),
      minutesOn(undefined, 40, {
        kind: 'chest piece',
        name: 'Chest piece',
        cause: 'own choice',
        entryId: 'e1',
      }),
      minutesOn(undefined, 15, { kind: 'bellows', name: 'Bellows', cause: 'client asked' }),
      minutesOn(undefined, 10, { kind: 'lining', name: 'Lining', cause: 'own error' }),
    ],
    leftOut: new Set(['hem']),
    everyTime: new Set(),
    ...more,
  });

describe('a garment that is closed', () => {
  it('freezes what each line took, without own error; every minute is somewhere once', () => {
    const { operations, totals, begunOn, endedOn } = close();
    expect(
      operations.map((one) => [one.kind, one.plannedMinutes, one.actualMinutes, one.ownErrorMinutes]),
    ).toEqual([
      ['lapels', 60, 70, 20],
      ['sleeves', 120, 130, 0],
      ['hem', 30, 0, 0],
      ['inside pocket', 0, 25, 0],
      ['lining', 0, 0, 10],
    ]);
    expect(operations.map((one) => [one.leftOut, one.forgotten])).toEqual([
      [false, false],
      [false, false],
      [true, false],
      [false, true],
      [false, false],
    ]);
    expect(totals).toEqual({
      plannedMinutes: 210,
      actualMinutes: 225,
      ownErrorMinutes: 30,
      besideMinutes: 55,
    });
    expect([begunOn, endedOn]).toEqual(['2026-03-02', '2026-03-09']);
  });

  it('an own choice teaches only after “every time from now on”', () => {
    const { operations } = close({ everyTime: new Set(['e1']) });
    expect(operations.find(({ kind }) => kind === 'chest piece')).toMatchObject({
      actualMinutes: 40,
      forgotten: true,
    });
  });

  it('is read back as it was written, and what others keep beside it is let be', () => {
    const garment = close();
    expect(readClosedGarment(closedGarmentText(garment))).toEqual(garment);
    const more = JSON.stringify({ ...JSON.parse(closedGarmentText(garment)), money: { profit: '12.00' } });
    expect(readClosedGarment(more)).toEqual(garment);
  });

  it('a document without a lesson teaches nothing, a broken one says so', () => {
    expect(readClosedGarment('')).toBeUndefined();
    expect(readClosedGarment('{"measurements":[]}')).toBeUndefined();
    for (const text of ['{', '{"lesson":2}', '{"lesson":1}'])
      expect(() => readClosedGarment(text)).toThrow(/closed/);
    const half = JSON.parse(closedGarmentText(close()));
    half.operations[0].actualMinutes = -4;
    expect(() => readClosedGarment(JSON.stringify(half))).toThrow(/incomplete/);
  });
});

describe('what closed garments teach', () => {
  it('oldest first, one row an operation; forgotten and left out are counted', () => {
    const lessons = lessonsFrom([close({ closedOn: '2026-04-01', repeat: 2 }), close()]);
    expect(lessons.map(({ repeat }) => repeat)).toEqual([1, 2]);
    expect(
      lessons[0]?.operations.map(({ kind, plannedMinutes, actualMinutes }) => [
        kind,
        plannedMinutes,
        actualMinutes,
      ]),
    ).toEqual([
      ['lapels', 60, 70],
      ['sleeves', 120, 130],
      ['hem', 30, 0],
      ['inside pocket', 0, 25],
    ]);
    const fitted = fitLesson(lessons);
    expect([fitted.garments, fitted.rows]).toEqual([2, 4]);
    expect(leftOut(lessons, 'lounge-jacket')).toMatchObject({
      notPlanned: [{ kind: 'inside pocket', times: 2, of: 2 }],
      notDone: [{ kind: 'hem', times: 2, of: 2 }],
    });
  });
});
