import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import type { PastGarment } from '../../../src/domain/lessons/past-garment.js';
import { startingBelief, typeLesson } from '../../../src/domain/lessons/type-lesson.js';
import { usualOverrun } from '../../../src/domain/lessons/usual-overrun.js';
import type { GarmentType } from '../../../src/domain/making/garment-type.js';
import { readStarter, type Starter } from '../../../src/storage/starter/read-starter.js';

const d = (figure: string | number) => new Decimal(figure);
const jacket: GarmentType = { id: 'coat', name: 'coat', plural: 'coats', isMenu: false, measuringList: [] };
const past = (hours: string, planned?: string, typeId = 'coat'): PastGarment => ({
  id: `${hours}-${typeId}`,
  version: 1,
  typeId,
  hours: d(hours),
  plannedHours: planned === undefined ? undefined : d(planned),
  finishedOn: undefined,
  note: '',
});

describe('what past totals say about a type', () => {
  // Closed form of the conjugate normal (Gelman et al., Bayesian Data Analysis, 2013, section 3.3), figures from R 4.2.2.
  it('learns from four garments and the maker’s own guess of 50 hours', () => {
    const all = ['52.5', '61', '48', '70.5'].map((hours) => past(hours)).concat(past('3', '3', 'shirt'));
    const lesson = typeLesson(jacket, all, { hours: d(50), from: 'ours' })!;
    expect(lesson.garments).toBe(4);
    expect(lesson.hours.typical.middle).toBeCloseTo(55.8185, 4);
    expect(lesson.hours.next['0.8']).toBeCloseTo(68.4485, 4);
    expect(lesson.overrun).toBeUndefined();
  });

  it('is silent where there is neither a garment nor a belief', () => {
    expect(typeLesson(jacket, [past('3', '3', 'shirt')], undefined)).toBeUndefined();
  });

  // Constructed case WS-19: ratios 1.05, 1.10, 1.25, 1.40, 1.60 have the geometric mean 1.2646.
  it('knows by how much plans are usually overrun', () => {
    const ratios = ['10.5', '11', '12.5', '14', '16'].map((hours) => past(hours, '10'));
    const lesson = typeLesson(jacket, [...ratios, past('40')], undefined)!;
    expect(lesson.overrun?.garments).toBe(5);
    expect(lesson.overrun?.ratio.toFixed(4)).toBe('1.2646');
    expect(usualOverrun([])).toBeUndefined();
  });
});

describe('what is believed before the first garment', () => {
  let starter: Starter;
  beforeAll(async () => {
    starter = await readStarter(join(import.meta.dirname, '../../../data/starter'));
  });
  const of = (id: string) => ({
    type: starter.garmentTypes.find((type) => type.id === id)!,
    operations: starter.operations.filter((one) => one.garmentType === id),
  });

  it('is the maker’s own guess, else the starting plan, and nothing for a price list', () => {
    const { type, operations } = of('lounge-jacket');
    expect(startingBelief(type, operations, d(48))).toEqual({ hours: d(48), from: 'ours' });
    const belief = startingBelief(type, operations)!;
    expect(belief.from).toBe('starting-value');
    // The plan’s own typical hours lie between a quick and a very slow jacket.
    expect(belief.hours.gt(30) && belief.hours.lt(120)).toBe(true);
    const menu = of('alteration');
    expect(startingBelief(menu.type, menu.operations)).toBeUndefined();
  });
});
