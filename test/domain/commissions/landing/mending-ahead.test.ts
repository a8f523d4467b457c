import { describe, expect, it } from 'vitest';
import { commissionLanding } from '../../../../src/domain/commissions/landing/commission-landing.js';
import { CHANCES, landingOf } from '../../../../src/domain/commissions/landing/landing.js';
import { mendingAhead } from '../../../../src/domain/commissions/landing/mending-ahead.js';
import { fitLesson } from '../../../../src/domain/estimating/lesson/lesson.js';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { anOperation } from '../an-extra.js';
import { anHour, underWay } from './a-garment.js';

const lesson = fitLesson([], { overruns: 'unknown' });
const land = (share?: string) => {
  const input = {
    ...underWay({ plan: [anOperation('pad-stitching', 600)] }),
    ...(share ? { mendingShare: new Decimal(share) } : {}),
  };
  return { input, landing: landingOf(input, lesson, () => anHour, '2026-03-10') };
};

describe('mending that is likely to come', () => {
  it('is a share of what is left at even chance, to a thousandth', () => {
    expect(mendingAhead(new Decimal(600), new Decimal('0.02')).toFixed()).toBe('12');
    expect(mendingAhead(new Decimal('0.3'), new Decimal('0.0125')).toFixed()).toBe('0.004');
    expect(mendingAhead(new Decimal(0), new Decimal(1)).toFixed()).toBe('0');
    expect(mendingAhead(new Decimal(600)).toFixed()).toBe('0');
  });

  it('moves a garment’s landing by that much at every chance, and costs what an hour costs', () => {
    const [without, withIt] = [land().landing, land('0.1').landing];
    const more = without.at['0.5'].left.times('0.1').toDecimalPlaces(3);
    expect(withIt.mendingLeft.toFixed()).toBe(more.toFixed());
    expect(more.gt(0)).toBe(true);
    for (const chance of CHANCES) {
      const grown = withIt.at[chance].left.minus(without.at[chance].left);
      expect(grown.minus(more).abs().toNumber()).toBeLessThan(0.05);
      expect(withIt.at[chance].profit.minor).toBeLessThan(without.at[chance].profit.minor);
    }
    expect(withIt.chanceOfLoss).toBeGreaterThanOrEqual(without.chanceOfLoss ?? Number.NaN);
  });

  it('is in the landing of the commission too', () => {
    const sum = (one: ReturnType<typeof land>) =>
      commissionLanding([one, one], lesson, 'EUR').at['0.5'].left.toNumber();
    const more = sum(land('0.1')) - sum(land());
    expect(more).toBeCloseTo(2 * Number(land('0.1').landing.mendingLeft), 1);
  });
});
