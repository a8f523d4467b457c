/** EV-01 to EV-06: P. Govan, PRA 0.4.0 (R package), tests/testthat/test-evm.R; the others say where they were read. */
import { describe, expect, it } from 'vitest';
import {
  type EarnedValueInput,
  earnedValueOf,
  estimateAtPerformance,
  valueOfShare,
} from '../../../src/domain/costing/earned-value.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { OutOfRange } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';

const d = (number: string | number) => new Decimal(number);
const usd = (amount: string) => Money.parse(amount, 'USD');
const aJob = (more: Partial<EarnedValueInput> = {}): EarnedValueInput => ({
  budgetAtCompletion: usd('100000'),
  plannedValue: usd('40000'),
  earnedValue: usd('35000'),
  actualCost: usd('36000'),
  ...more,
});

describe('PRA 0.4.0 (P. Govan), tests/testthat/test-evm.R', () => {
  it('EV-01 planned value in the third of five periods: 40,000', () => {
    const schedule = ['.1', '.2', '.4', '.7', '1.0'];
    expect(valueOfShare(usd('100000'), d(schedule[2] ?? '0')).toString()).toBe('40000.00');
  });

  it('EV-02 earned value at 35 %: 35,000', () => {
    expect(valueOfShare(usd('100000'), d('.35')).toString()).toBe('35000.00');
  });

  it('EV-03 variances and indices', () => {
    const earned = earnedValueOf(aJob());
    expect(`${earned.costVariance} ${earned.scheduleVariance}`).toBe('-1000.00 -5000.00');
    expect(earned.schedulePerformance?.toFixed()).toBe('0.875');
    expect(earned.costPerformance?.toFixed(7)).toBe('0.9722222');
  });

  it('EV-04 estimate at completion at a cost performance of 0.8: 125,000 (answer derived)', () => {
    const earned = earnedValueOf(aJob({ earnedValue: usd('40000'), actualCost: usd('50000') }));
    expect(earned.costPerformance?.toFixed()).toBe('0.8');
    expect(earned.estimateAtCompletion?.toString()).toBe('125000.00');
  });

  it('EV-05 estimate when what is left goes as planned: 128,000 (answer derived)', () => {
    expect(estimateAtPerformance(aJob({ actualCost: usd('63000') })).toString()).toBe('128000.00');
  });

  it('EV-06 estimate when what is left suffers from both: 153,277.78 (answer derived)', () => {
    const factor = d('0.8').times('0.9');
    expect(estimateAtPerformance(aJob({ actualCost: usd('63000') }), factor).toString()).toBe('153277.78');
  });

  it('has no index, and no estimate, with nothing earned or nothing spent', () => {
    for (const nothing of [{ earnedValue: usd('0') }, { actualCost: usd('0') }]) {
      const earned = earnedValueOf(aJob(nothing));
      expect([earned.costPerformance, earned.estimateAtCompletion, earned.varianceAtCompletion]).toEqual([
        null,
        null,
        null,
      ]);
    }
    expect(() => estimateAtPerformance(aJob(), d(0))).toThrow(OutOfRange);
    expect(() => earnedValueOf(aJob({ actualCost: usd('-1') }))).toThrow(OutOfRange);
  });
});

describe('studymode.com, The Earned Value Management Formulas (secondary)', () => {
  it('EV-08 350,000 earned for 307,017 is a cost performance of 1.14', () => {
    const earned = earnedValueOf(aJob({ earnedValue: usd('350000'), actualCost: usd('307017') }));
    expect(earned.costPerformance?.toFixed(2)).toBe('1.14');
  });

  it('EV-09 32.5 % of 1,350,000 is 438,750', () => {
    expect(valueOfShare(usd('1350000'), d('0.325')).toString()).toBe('438750.00');
  });

  it('EV-10 to complete 5,757, variance at completion −1,507', () => {
    const earned = earnedValueOf(
      aJob({ budgetAtCompletion: usd('10000'), actualCost: usd('5750'), earnedValue: usd('4996.96') }),
    );
    expect(
      [earned.estimateAtCompletion, earned.estimateToComplete, earned.varianceAtCompletion].map(String),
    ).toEqual(['11507.00', '5757.00', '-1507.00']);
  });
});

describe('slideplayer.com slide 3217182, earned value formulas', () => {
  it('EV-12 actual + (budget − earned) / performance agrees with budget / performance', () => {
    const job = aJob({ earnedValue: usd('40000'), actualCost: usd('50000') });
    const earned = earnedValueOf(job);
    expect(estimateAtPerformance(job, d('0.8')).toString()).toBe(earned.estimateAtCompletion?.toString());
  });
});
