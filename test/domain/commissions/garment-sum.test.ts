import { describe, expect, it } from 'vitest';
import type { PlannedGarment } from '../../../src/domain/commissions/garment.js';
import { garmentSum, type SumBasis } from '../../../src/domain/commissions/garment-sum.js';
import { fitLesson } from '../../../src/domain/estimating/lesson/lesson.js';
import { newStudio } from '../../../src/domain/house/new-studio.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { Mode } from '../../../src/domain/making/mode.js';
import type { Operation } from '../../../src/domain/making/operation.js';

const d = (value: string | number): Decimal => new Decimal(value);
const eur = (text: string): Money => Money.parse(text, 'EUR');
const studio = newStudio({ name: 'Quillmere Workroom', maker: 'Odalys Fenwright', zone: 'Europe/Dublin' });

const basis: SumBasis = {
  rates: {
    perHour: eur('22.69'),
    perHourByMode: {},
    machinePerHour: eur('3.00'),
    overhead: [{ name: 'workroom', base: 'productive-hours', rate: d('5.38') }],
  },
  pricing: studio.pricing,
  tax: studio.tax,
  lesson: fitLesson([], { overruns: 'unknown' }),
};

const work = (name: string, minutes: number, mode: Mode = 'hand'): Operation => ({
  id: name,
  kind: name,
  name,
  stage: 'make',
  mode,
  modeShares: [],
  basting: false,
  driver: 'once',
  quantity: d(1),
  fixedMinutes: d(minutes),
  minutesPerUnit: d(0),
  needsMinutes: false,
  fromStartingValues: false,
  shownToClient: false,
  clientWording: '',
});

const jacket = (plan: readonly Operation[], ownPrice?: Money): PlannedGarment => ({
  garment: {
    id: 'g',
    version: 1,
    commissionId: 'c',
    place: 1,
    name: 'Jacket',
    typeId: 'lounge-jacket',
    make: 'hand-where-it-shows',
    wearerId: 'w',
    dueOn: undefined,
    notes: '',
    ownPrice,
  },
  plan,
  materials: [],
  expenses: [],
});

describe('the sum of a garment', () => {
  it('keeps back the difference between the chosen certainty and even chance, in minutes and money', () => {
    const sum = garmentSum({ planned: jacket([work('pad', 600), work('seams', 300, 'machine')]), ...basis });
    const { costSheet, keptBack, minutes } = sum.answer;
    expect(sum.planned).toBe(900);
    expect(minutes.total.plus(keptBack.minutes).toFixed(2)).toBe(sum.hours.total.fourInFive.toFixed(2));
    expect(minutes.total.toFixed(2)).toBe(sum.hours.total.even.toFixed(2));
    expect(keptBack.money.minor).toBeGreaterThan(0);
    const parts = [costSheet.labour, costSheet.machine, costSheet.overhead, keptBack.money];
    expect(Money.sum(parts, 'EUR').toString()).toBe(costSheet.cost.toString());
  });

  it('keeps nothing back at even chance', () => {
    const pricing = { ...basis.pricing, certainty: '0.5' as const };
    const sum = garmentSum({ planned: jacket([work('pad', 600)]), ...basis, pricing });
    expect(sum.answer.keptBack.minutes.toNumber()).toBeCloseTo(0, 2);
    expect(sum.answer.keptBack.money.toString()).toBe('0.00');
  });

  it('says the chance of a loss from the minutes the price can bear', () => {
    const sum = garmentSum({ planned: jacket([work('pad', 600), work('fell', 500)]), ...basis });
    expect(sum.answer.chanceOfLoss).toBeGreaterThan(0);
    expect(sum.answer.chanceOfLoss).toBeLessThan(0.2);
    const cheap = garmentSum({
      planned: jacket([work('pad', 600), work('fell', 500)], eur('100.00')),
      ...basis,
    });
    expect(cheap.answer.chanceOfLoss).toBeGreaterThan(0.95);
  });

  it('takes a price set by hand, and lets profit and earned an hour follow it', () => {
    const sum = garmentSum({ planned: jacket([work('pad', 600)], eur('0.00')), ...basis });
    expect(sum.net.toString()).toBe('0.00');
    expect(sum.answer.price.profit.minor).toBe(-sum.answer.costSheet.cost.minor);
    expect(sum.answer.price.margin).toBeNull();
    const steps = sum.answer.price.steps.reduce((total, step) => total + step.amount.minor, 0);
    expect(steps).toBe(0);
  });

  it('costs an operation of two modes by its shares', () => {
    const shared: Operation = {
      ...work('sleeves', 300),
      modeShares: [
        { mode: 'hand', share: d('0.5') },
        { mode: 'machine', share: d('0.5') },
      ],
    };
    const { byMode } = garmentSum({ planned: jacket([shared]), ...basis }).answer.minutes;
    expect(byMode.get('hand')?.toFixed(2)).toBe(byMode.get('machine')?.toFixed(2));
  });

  it('prices a garment without operations at its materials', () => {
    const sum = garmentSum({ planned: jacket([]), ...basis });
    expect(sum.answer.price.net.toString()).toBe('0.00');
    expect(sum.answer.price.earnedPerHour).toBeNull();
  });

  it('names what nobody has timed', () => {
    const sum = garmentSum({ planned: jacket([{ ...work('embroidery', 0), needsMinutes: true }]), ...basis });
    expect(sum.untimed).toEqual(['embroidery']);
  });
});
