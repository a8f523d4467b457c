import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CHANCES, landingOf } from '../../../../src/domain/commissions/landing/landing.js';
import { CAUSES } from '../../../../src/domain/costing/causes.js';
import { fitLesson } from '../../../../src/domain/estimating/lesson/lesson.js';
import { MODES } from '../../../../src/domain/making/mode.js';
import { anOperation } from '../an-extra.js';
import { anHour, euro, minutesOn, underWay } from './a-garment.js';

const TODAY = '2026-03-10';
const lesson = fitLesson([]);
const land = (more: Parameters<typeof underWay>[0]) => landingOf(underWay(more), lesson, () => anHour, TODAY);

const lapels = anOperation('lapels', 60);
const sleeves = anOperation('sleeves', 120);

describe('where a garment will land', () => {
  // Worked by hand: 240 min at 20 an hour = 80.00; overhead 4 h × 6 = 24.00 and a tenth of 40.00 and of the 10.00 to come;
  // cost 80 + 24 + 4 + 1 + 50 = 159.00; profit 41.00; (41 + 80) / 4 h = 30.25.
  it('once all is worked, is what it took: cost, profit, what the hour earned', () => {
    const { soFar, at, marginGoneAt, chanceOfLoss } = land({
      plan: [lapels, sleeves],
      worked: [minutesOn('lapels', 90), minutesOn('sleeves', 150)],
      finished: new Set(['lapels', 'sleeves']),
      used: [{ on: '2026-03-02', cost: euro('40.00') }],
      materialsToCome: euro('10.00'),
    });
    expect(soFar.cost.toString()).toBe('148.00');
    for (const chance of CHANCES) {
      expect(at[chance].left.toString()).toBe('0');
      expect(at[chance].minutes.toString()).toBe('240');
      expect(at[chance].cost.cost.toString()).toBe('159.00');
      expect(at[chance].profit.toString()).toBe('41.00');
      expect(at[chance].earnedPerHour?.toString()).toBe('30.25');
    }
    // A minute cost (80 + 24) / 240 = 0.4333; 41.00 buys 94.615 more.
    expect(marginGoneAt?.toString()).toBe('334.615');
    expect(chanceOfLoss).toBe(0);
  });

  // By hand: budget (60 + 120) min × 26 an hour = 78.00; lapels finished earn 60/180 of it = 26.00; 90 min cost 39.00;
  // cost performance 26/39, estimate 78 × 39/26 = 117.00.
  it('tells the textbook figures beside it, without a planned value', () => {
    const { earned } = land({
      plan: [lapels, sleeves],
      worked: [minutesOn('lapels', 90)],
      finished: new Set(['lapels']),
    });
    expect(earned?.budgetAtCompletion.toString()).toBe('78.00');
    expect(earned?.earnedValue.toString()).toBe('26.00');
    expect(earned?.actualCost.toString()).toBe('39.00');
    expect(earned?.costVariance.toString()).toBe('-13.00');
    expect(earned?.estimateAtCompletion?.toString()).toBe('117.00');
    expect(earned?.scheduleVariance).toBeNull();
    expect(land({}).earned).toBeNull();
  });

  it('a slow start moves what is left, by less than itself; own error is paid for and moves nothing', () => {
    const left = (worked: ReturnType<typeof minutesOn>[], finished: string[] = []) =>
      Number(land({ plan: [lapels, sleeves], worked, finished: new Set(finished) }).at['0.5'].left);
    const untouched = left([]);
    const onTime = left([minutesOn('lapels', 66)], ['lapels']);
    const slow = left([minutesOn('lapels', 120)], ['lapels']);
    expect(onTime).toBeLessThan(untouched);
    expect(slow).toBeGreaterThan(onTime * 1.05);
    expect(slow).toBeLessThan((onTime * 120) / 66);
    const error = [minutesOn('lapels', 66), minutesOn('lapels', 50, { cause: 'own error' })];
    const { progress, at, soFar } = land({
      plan: [lapels, sleeves],
      worked: error,
      finished: new Set(['lapels']),
    });
    expect(Number(at['0.5'].left)).toBeCloseTo(onTime, 3);
    expect(progress.ownError).toBe(50);
    expect(soFar.minutes.toString()).toBe('116');
  });

  // By hand: 60 min of lapels cost 26.00 and are all that was worked. Price 20.00: 6.00 short at 26.00 an hour = 13.846 min.
  it('says when the margin is gone already, and that nothing is gone where time costs nothing', () => {
    const worked = [minutesOn('lapels', 60)];
    const gone = land({ plan: [lapels], worked, finished: new Set(['lapels']), price: euro('20.00') });
    expect(gone.marginGoneAt?.toString()).toBe('46.154');
    expect(gone.chanceOfLoss).toBe(1);
    expect(land({ used: [{ on: TODAY, cost: euro('5.00') }] }).marginGoneAt).toBeNull();
    const dearCloth = land({ plan: [lapels], worked, used: [{ on: TODAY, cost: euro('900.00') }] });
    expect(dearCloth.marginGoneAt?.toString()).toBe('0');
  });

  it('work left out is not to come, and what was worked on it is not lost', () => {
    const { at, progress } = land({
      plan: [lapels, sleeves],
      worked: [minutesOn('lapels', 60), minutesOn('sleeves', 25)],
      finished: new Set(['lapels']),
      leftOut: new Set(['sleeves']),
    });
    expect(at['0.9'].minutes.toString()).toBe('85');
    expect(progress.beside).toBe(25);
    expect(progress.leftOut.map(({ id }) => id)).toEqual(['sleeves']);
  });

  it('whatever was worked: so far + left = the whole, at rising chances, nothing is no number', () => {
    const piece = fc.record({
      operation: fc.constantFrom('a', 'b', 'c', 'd', undefined),
      minutes: fc.integer({ min: 1, max: 900 }),
      cause: fc.constantFrom(undefined, ...CAUSES),
      mode: fc.constantFrom(...MODES),
    });
    const some = fc.subarray(['a', 'b', 'c', 'd']);
    fc.assert(
      fc.property(
        fc.array(piece, { maxLength: 8 }),
        some,
        some,
        fc.array(fc.integer({ min: 0, max: 600 }), { minLength: 4, maxLength: 4 }),
        fc.integer({ min: 0, max: 200_000 }),
        (pieces, finished, leftOut, planned, price) => {
          const worked = pieces.map(({ operation, minutes, ...more }) => minutesOn(operation, minutes, more));
          const { soFar, at, marginGoneAt, chanceOfLoss, progress } = land({
            plan: ['a', 'b', 'c', 'd'].map((id, i) => anOperation(id, planned[i] ?? 0)),
            worked,
            finished: new Set(finished),
            leftOut: new Set(leftOut),
            price: euro((price / 100).toFixed(2)),
          });
          const all = worked.reduce((sum, { minutes }) => sum + minutes, 0);
          expect(soFar.minutes.toNumber()).toBe(all);
          expect(
            progress.operations.reduce((sum, { minutes }) => sum + minutes, 0) +
              progress.ownError +
              progress.beside,
          ).toBe(all);
          for (const chance of CHANCES) {
            const { minutes, left, cost, profit, earnedPerHour } = at[chance];
            expect(left.isFinite() && left.gte(0)).toBe(true);
            expect(minutes.minus(left).minus(soFar.minutes).abs().toNumber()).toBeLessThan(0.02);
            expect(cost.cost.plus(profit).minor).toBe(price);
            expect(earnedPerHour === null).toBe(minutes.isZero());
          }
          const isOpen = progress.operations.some((one) => one.state !== 'finished' && one.planned > 0);
          const [even, four, nine] = CHANCES.map((chance) => at[chance].left.toNumber()) as [
            number,
            number,
            number,
          ];
          expect(isOpen ? even < four && four < nine : even === nine).toBe(true);
          if (marginGoneAt) expect(marginGoneAt.isFinite() && marginGoneAt.gte(0)).toBe(true);
          if (chanceOfLoss !== null) expect(chanceOfLoss >= 0 && chanceOfLoss <= 1).toBe(true);
        },
      ),
      { numRuns: 150, seed: 20_261_125 },
    );
  });
});
