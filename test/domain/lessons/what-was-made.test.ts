import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { modeLessons, namesOfKinds, operationLessons } from '../../../src/domain/lessons/by-operation.js';
import { earnedTogether } from '../../../src/domain/lessons/earned-by-type.js';
import { madeGarments } from '../../../src/domain/lessons/made-garments.js';
import { mendingShare } from '../../../src/domain/lessons/mending-share.js';
import { typeLesson } from '../../../src/domain/lessons/type-lesson.js';
import { aClosedGarment, done } from './a-closed-garment.js';

const d = (value: number | string) => new Decimal(value);
const jacket = { id: 'lounge-jacket', name: 'jacket', plural: 'jackets', isMenu: false, measuringList: [] };
const past = (hours: string, planned?: string, finishedOn?: string) => ({
  id: hours,
  version: 1,
  typeId: 'lounge-jacket',
  hours: d(hours),
  plannedHours: planned ? d(planned) : undefined,
  finishedOn,
  note: '',
});

describe('garments closed here and totals out of the notebook', () => {
  const closed = [
    aClosedGarment([done('sleeves', 1800, 3150)], { garmentId: 'g1' }),
    aClosedGarment([done('sleeves', 1800, 3660)], { garmentId: 'g2', closedOn: '2026-01-02' }),
    aClosedGarment([], { garmentId: 'g3' }),
    aClosedGarment([done('sleeves', 10, 10)], { garmentId: 'g4', typeId: 'shirt' }),
  ];
  const notebook = [past('48', '40', '2026-01-20'), past('70.5')];

  // Closed form of the conjugate normal (Gelman et al., 2013, section 3.3), figures from R 4.2.2: 52.5, 61, 48, 70.5 h, guess 50.
  it('count alike, one each: two of either give the figures of four', () => {
    const lesson = typeLesson(jacket, notebook, { hours: d(50), from: 'ours' }, closed)!;
    expect([lesson.garments, lesson.closed]).toEqual([4, 2]);
    expect(lesson.hours.typical.middle).toBeCloseTo(55.8185, 4);
    expect(lesson.hours.next['0.9']).toBeCloseTo(76.91, 4);
    expect(lesson.overrun?.garments).toBe(3);
  });

  it('stand in the order they were finished in, the undated first; one on which nothing was worked is none', () => {
    const made = madeGarments('lounge-jacket', closed, notebook);
    expect(made.map(({ hours }) => hours.toNumber())).toEqual([70.5, 61, 48, 52.5]);
  });

  it('never follow the one that is far off, and show it', () => {
    const totals = ['52', '55', '58', '61'].map((hours) => past(hours));
    const lesson = typeLesson(jacket, [...totals, past('560')], undefined)!;
    expect(lesson.garments).toBe(4);
    expect(lesson.made.filter(({ isFarOff }) => isFarOff).map(({ id }) => id)).toEqual(['560']);
  });

  it.each([[['56']], [['56', '56', '56']], [['0.01', '10000']]])(
    'of %o give figures in order, never NaN',
    (all) => {
      const { next, typical } = typeLesson(
        jacket,
        all.map((hours) => past(hours)),
        undefined,
      )!.hours;
      expect(next['0.5']).toBeLessThan(next['0.8']);
      expect(next['0.8']).toBeLessThan(next['0.9']);
      for (const figure of [...Object.values(next), ...Object.values(typical)])
        expect(figure).toBeGreaterThan(0);
    },
  );
});

describe('operations', () => {
  const closed = [
    aClosedGarment([done('seams', 60, 90), done('seams', 60, 30, { mode: 'machine' }), done('hem', 20, 0)]),
    aClosedGarment([
      done('seams', 30, 30),
      done('seams', 30, 45),
      done('pocket', 0, 25, { name: 'Inside pocket' }),
    ]),
  ];

  it('are told by kind and mode; two rows in one garment are one garment; what was not done says nothing', () => {
    const told = operationLessons(closed);
    expect(told.map(({ kind, mode, garments }) => `${kind} ${mode} ${garments}`)).toEqual([
      'seams hand 2',
      'seams machine 1',
      'pocket hand 1',
    ]);
    const [hand] = told;
    // Geometric mean of 90/60 and 75/60.
    expect(hand?.overrun).toEqual({ garments: 2, ratio: d('1.3693') });
    expect([hand?.plannedMinutes, hand?.actualMinutes]).toEqual([120, 165]);
    expect(hand!.typical).toBeCloseTo(Math.sqrt(90 * 75), 6);
    for (const one of told) {
      expect(one.even).toBeLessThan(one.fourInFive);
      expect(one.fourInFive).toBeLessThan(one.nineInTen);
    }
    expect(operationLessons([])).toEqual([]);
    expect(namesOfKinds(closed).get('pocket')).toBe('Inside pocket');
  });

  it('add up by mode', () => {
    expect(modeLessons(closed)).toEqual([
      { mode: 'hand', garments: 2, plannedMinutes: 140, actualMinutes: 190 },
      { mode: 'machine', garments: 1, plannedMinutes: 60, actualMinutes: 30 },
    ]);
  });
});

describe('mending', () => {
  it('is no line while nothing was closed, and the starting 2 % for a type not made yet', () => {
    expect(mendingShare([], 'lounge-jacket').share.toFixed()).toBe('0');
    expect(mendingShare([aClosedGarment([done('hem', 60, 60)])], 'shirt').share.toFixed()).toBe('0.02');
  });

  it('draws what was mended to 2 % worth 40 hours', () => {
    const closed = [aClosedGarment([done('hem', 2000, 2400, { ownErrorMinutes: 192 })])];
    const mending = mendingShare(closed, 'lounge-jacket');
    // (192 + 48) / (2400 + 2400).
    expect(mending.share.toFixed()).toBe('0.05');
    expect(mending.asItWas.toFixed()).toBe('0.08');
    expect(mendingShare([aClosedGarment([])]).asItWas.toFixed()).toBe('0');
  });
});

describe('what an hour earned', () => {
  const once = (actualProfit: string, labour: string, minutes: string, currency = 'GBP') => ({
    currency,
    actualProfit,
    price: '1000.00',
    cost: { labour, minutes },
  });

  it('weighs garments by their hours', () => {
    // (100 + 600 - 50 + 250) / 40 h = 22.50.
    const earned = earnedTogether([once('100.00', '600.00', '1800'), once('-50.00', '250.00', '600')], 'GBP');
    expect(earned?.perHour.toString()).toBe('22.50');
    expect(earned?.garments).toBe(2);
  });

  it('leaves out other money and garments without an hour', () => {
    const rows = [once('1.00', '1.00', '0'), once('1.00', '1.00', '60', 'EUR')];
    expect(earnedTogether(rows, 'GBP')).toBeUndefined();
  });
});
