import { describe, expect, it } from 'vitest';
import { garmentHours, notebookStretch } from '../../../src/domain/estimating/garment-hours.js';
import { fitLesson } from '../../../src/domain/estimating/lesson/lesson.js';
import { trueHours } from '../../../src/domain/estimating/true-hours.js';

const lesson = fitLesson([], { overruns: 'unknown' });
const plan = (...minutes: number[]) => ({
  garmentType: 'lounge-jacket',
  operations: minutes.map((plannedMinutes, index) => ({
    kind: `kind ${index}`,
    mode: 'hand',
    plannedMinutes,
  })),
});

describe('hours of a planned garment', () => {
  it('lean on starting values while nothing is known, and say so', () => {
    const hours = garmentHours({ plan: plan(600, 400, 200), lesson });
    expect(hours.rests).toEqual({ on: 'starting', garments: 0 });
    expect(hours.at(0.5)).toBeLessThan(hours.at(0.8));
    expect(hours.at(0.8)).toBeLessThan(hours.at(0.9));
  });

  it('follow the closed form once the notebook holds totals, this plan being the guess', () => {
    const own = plan(1500, 1500);
    const even = garmentHours({ plan: own, lesson }).at(0.5);
    const hours = garmentHours({ plan: own, lesson, notebook: [{ minutes: 3600 }, { minutes: 3900 }] });
    const form = trueHours({ hours: [3600, 3900], ownGuess: even });
    for (const q of [0.1, 0.5, 0.8, 0.9]) expect(hours.at(q)).toBeCloseTo(form.nextAt(q), 6);
    expect(hours.rests).toEqual({ on: 'notebook', garments: 2 });
  });

  it('bring each total to the size of this plan, so that the next pocket still moves the hours', () => {
    const notebook = [
      { minutes: 3600, plannedMinutes: 3000 },
      { minutes: 3900, plannedMinutes: 3000 },
    ];
    const small = garmentHours({ plan: plan(1500, 1500), lesson, notebook });
    const large = garmentHours({ plan: plan(1650, 1650), lesson, notebook });
    expect(large.at(0.8) / small.at(0.8)).toBeCloseTo(1.1, 3);
  });

  it('say a chance that agrees with the quantiles', () => {
    const hours = garmentHours({ plan: plan(1500, 1500), lesson, notebook: [{ minutes: 3600 }] });
    expect(hours.chanceOver(hours.at(0.8))).toBeCloseTo(0.2, 6);
  });

  it('share the total over operations by their even-chance minutes', () => {
    const split = garmentHours({ plan: plan(1000, 500), lesson, notebook: [{ minutes: 1800 }] }).splitAt(0.8);
    expect(split.operations.reduce((sum, minutes) => sum + minutes, 0)).toBeCloseTo(split.total, 6);
    expect(split.operations[0]! / split.operations[1]!).toBeCloseTo(2, 1);
  });

  it('stay nought without planned time', () => {
    const hours = garmentHours({ plan: plan(), lesson, notebook: [{ minutes: 1800 }] });
    expect(hours.at(0.9)).toBe(0);
  });

  it('follow the lesson alone once as many garments of the type are known by operation as by the notebook', () => {
    const closed = (garmentType: string) => ({
      garmentType,
      operations: [{ kind: 'kind 0', plannedMinutes: 100, actualMinutes: 140 }],
    });
    const notebook = [{ minutes: 3600 }, { minutes: 3900 }];
    const own = plan(1500, 1500);
    const one = fitLesson([closed('lounge-jacket'), closed('waistcoat')]);
    const two = fitLesson([closed('lounge-jacket'), closed('lounge-jacket')]);
    expect(garmentHours({ plan: own, lesson: one, notebook }).rests.on).toBe('notebook');
    expect(garmentHours({ plan: own, lesson: two, notebook }).rests).toEqual({ on: 'lesson', garments: 2 });
    expect(notebookStretch({ plan: own, lesson: two, notebook })).toBe(1);
  });

  it('stretch the planned minutes of a garment under way to the same even-chance total', () => {
    const own = plan(1500, 1500);
    const notebook = [{ minutes: 4600 }, { minutes: 4900 }];
    const stretch = notebookStretch({ plan: own, lesson, notebook });
    expect(stretch).toBeGreaterThan(1.1);
    const stretched = garmentHours({ plan: plan(1500 * stretch, 1500 * stretch), lesson });
    expect(stretched.at(0.5)).toBeCloseTo(garmentHours({ plan: own, lesson, notebook }).at(0.5), 6);
    expect(notebookStretch({ plan: own, lesson })).toBe(1);
  });
});
