import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import {
  addOperation,
  changeOperation,
  copyPlan,
  type MakingPlan,
  MOST_OPERATIONS,
  moveDown,
  moveUp,
  takeOutOperation,
} from '../../../src/domain/making/making-plan.js';
import { MODES, STAGES } from '../../../src/domain/making/mode.js';
import { planMinutes } from '../../../src/domain/making/plan-minutes.js';
import { anOperation, countingIds } from './an-operation.js';

const plan: MakingPlan = [
  anOperation({ id: 'a', stage: 'draft', mode: 'bench' }),
  anOperation({ id: 'b', stage: 'make' }),
  anOperation({ id: 'c', stage: 'finish' }),
];
const ids = (of: MakingPlan) => of.map(({ id }) => id).join('');

describe('a making plan', () => {
  it('takes a new operation in after the last of its stage, else at the end', () => {
    expect(ids(addOperation(plan, anOperation({ id: 'd', stage: 'make' })))).toBe('abdc');
    expect(ids(addOperation(plan, anOperation({ id: 'd', stage: 'fit' })))).toBe('abcd');
    expect(() => addOperation(plan, anOperation({ id: 'a' }))).toThrow('already');
  });

  it('moves up and down without dragging, and stops at the ends', () => {
    expect(ids(moveUp(plan, 'b'))).toBe('bac');
    expect(ids(moveUp(plan, 'a'))).toBe('abc');
    expect(ids(moveDown(plan, 'a'))).toBe('bac');
    expect(ids(moveDown(plan, 'c'))).toBe('abc');
    expect(() => moveDown(plan, 'z')).toThrow('no such operation');
  });

  it('takes out and changes one in its place', () => {
    expect(ids(takeOutOperation(plan, 'b'))).toBe('ac');
    const changed = changeOperation(plan, anOperation({ id: 'b', name: 'Buttonholes, silk' }));
    expect(changed[1]?.name).toBe('Buttonholes, silk');
    expect(() => takeOutOperation(plan, 'z')).toThrow('no such operation');
  });

  it('is copied from an earlier garment under new ids', () => {
    const copy = copyPlan(plan, countingIds());
    expect(copy.map(({ id }) => id)).toEqual(['op-1', 'op-2', 'op-3']);
    expect(planMinutes(copy)).toEqual(planMinutes(plan));
  });

  it('holds 300 operations and says so at the next', () => {
    const nextId = countingIds();
    let full: MakingPlan = [];
    for (let count = 0; count < MOST_OPERATIONS; count += 1)
      full = addOperation(full, anOperation({ id: nextId() }));
    expect(() => addOperation(full, anOperation({ id: nextId() }))).toThrow('at most 300 operations');
  });
});

describe('the minutes of a plan', () => {
  it('add up by mode and by stage', () => {
    const shared = anOperation({
      id: 'd',
      stage: 'baste',
      basting: true,
      modeShares: [
        { mode: 'hand', share: new Decimal('0.7') },
        { mode: 'press', share: new Decimal('0.3') },
      ],
    });
    const sums = planMinutes([...plan, shared, anOperation({ id: 'e', needsMinutes: true })]);
    expect(sums.minutes).toBe(1140);
    expect(sums.byMode).toEqual({ hand: 770, machine: 0, press: 85, bench: 285, fitting: 0, desk: 0 });
    expect(sums.byStage).toEqual({ draft: 285, cut: 0, baste: 285, fit: 0, make: 285, finish: 285 });
    expect(sums.basting).toBe(285);
    expect(sums.needMinutes.map(({ id }) => id)).toEqual(['e']);
  });

  it('are nought for a garment without operations', () => {
    expect(planMinutes([]).minutes).toBe(0);
  });

  it('lose no minute, however the modes are shared', () => {
    const anyOperation = fc
      .record({ per: fc.integer({ min: 0, max: 5000 }), tenth: fc.integer({ min: 0, max: 10 }) })
      .map(({ per, tenth }) =>
        anOperation({
          minutesPerUnit: new Decimal(per).div(7),
          modeShares: [
            { mode: 'hand', share: new Decimal(tenth).div(10) },
            { mode: 'machine', share: new Decimal(10 - tenth).div(10) },
          ],
        }),
      );
    fc.assert(
      fc.property(fc.array(anyOperation, { maxLength: 20 }), (operations) => {
        const sums = planMinutes(operations);
        expect(MODES.reduce((sum, mode) => sum + sums.byMode[mode], 0)).toBe(sums.minutes);
        expect(STAGES.reduce((sum, stage) => sum + sums.byStage[stage], 0)).toBe(sums.minutes);
      }),
    );
  });
});
