import { describe, expect, it } from 'vitest';
import { leftOut } from '../../../src/domain/estimating/forgotten.js';
import { modeShares } from '../../../src/domain/estimating/mode-shares.js';

const jacket = (...operations: [kind: string, planned: number, actual: number][]) => ({
  garmentType: 'jacket',
  operations: operations.map(([kind, plannedMinutes, actualMinutes]) => ({
    kind,
    plannedMinutes,
    actualMinutes,
  })),
});

describe('left out and forgotten', () => {
  // The mean of Beta(1 + times, 9 + garments - times); Gelman et al., "Bayesian Data Analysis", 3rd edition, 2.4.
  it('inside pockets, 3 of 8 jackets, about 1 h 30: a chance of 4 in 18', () => {
    const history = [
      ...[80, 90, 101.25].map((minutes) => jacket(['body', 300, 320], ['inside pockets', 0, minutes])),
      ...[1, 2, 3, 4, 5].map(() => jacket(['body', 300, 310])),
      { garmentType: 'coat', operations: [{ kind: 'inside pockets', plannedMinutes: 0, actualMinutes: 60 }] },
    ];
    const { notPlanned, notDone } = leftOut(history, 'jacket');
    expect(notDone).toEqual([]);
    expect(notPlanned).toHaveLength(1);
    const [pockets] = notPlanned;
    expect(pockets).toMatchObject({ kind: 'inside pockets', times: 3, of: 8 });
    expect(pockets!.chance).toBeCloseTo(4 / 18, 12);
    expect(pockets!.minutes).toBeCloseTo(90, 10);
    expect(pockets!.expectedMinutes).toBeCloseTo(20, 10);
  });

  it('planned in vain is told apart, and a kind planned in two lines is one kind', () => {
    const { notPlanned, notDone } = leftOut(
      [jacket(['toile', 60, 0], ['hem', 0, 20], ['hem', 30, 10]), jacket(['toile', 60, 70])],
      'jacket',
    );
    expect(notPlanned).toEqual([]);
    expect(notDone.map(({ kind, times, of }) => [kind, times, of])).toEqual([['toile', 1, 2]]);
  });
});

describe('shares of modes', () => {
  it('are drawn to the studio with ten hours of weight', () => {
    const shares = modeShares({ hand: 300, machine: 300 }, { hand: 900, machine: 100 });
    expect(shares.hand).toBeCloseTo((300 + 540) / 1200, 12);
    expect(shares.machine).toBeCloseTo((300 + 60) / 1200, 12);
  });

  it('are the studio’s own where the kind is new, and nothing where all is new', () => {
    expect(modeShares({}, { hand: 3, press: 1 })).toEqual({ hand: 0.75, press: 0.25 });
    expect(modeShares({ hand: 5 }, {})).toEqual({ hand: 1 });
    expect(modeShares({}, {})).toEqual({});
  });
});
