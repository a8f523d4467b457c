import { beforeAll, describe, expect, it } from 'vitest';
import { cautionsFor } from '../../../src/domain/making/caution.js';
import { MAKES } from '../../../src/domain/making/mode.js';
import { planMinutes } from '../../../src/domain/making/plan-minutes.js';
import { readSpecLine } from '../../../src/domain/making/spec-line.js';
import { menuOf, startingPlan } from '../../../src/domain/making/starting-plan.js';
import { readStarter, type Starter } from '../../../src/storage/starter/read-starter.js';
import { linesOf } from '../../../src/storage/starter/tab-separated.js';
import { countingIds } from '../../domain/making/an-operation.js';

let starter: Starter;

beforeAll(async () => {
  starter = await readStarter('data/starter');
});

const typeOf = (id: string) => {
  const found = starter.garmentTypes.find((one) => one.id === id);
  if (!found) throw new Error(`no type ${id}`);
  return found;
};
const plan = (id: string, make: (typeof MAKES)[number]) =>
  startingPlan(typeOf(id), make, starter.operations, countingIds());
const hoursOf = (id: string) => planMinutes(plan(id, 'hand-where-it-shows').plan).minutes / 60;

describe('the starting values', () => {
  it('hold fourteen garment types and a menu of alterations, every line with its source', () => {
    expect(starter.garmentTypes.filter(({ isMenu }) => !isMenu)).toHaveLength(14);
    expect(menuOf(typeOf('alteration'), starter.operations)).toHaveLength(14);
    expect(starter.operations).toHaveLength(267);
    expect(starter.operations.filter(({ source }) => source === '')).toEqual([]);
    expect(starter.dimensions.filter(({ source }) => source === '')).toEqual([]);
    expect(starter.garmentTypes.filter(({ measuringList }) => measuringList.length === 0)).toEqual([]);
  });

  // Published for plausibility: jacket 40 to 60 h, waistcoat 12 to 25, trousers about 20, overcoat 50 and more, shirt about 15,
  // stays 16 to 17 (by makers' own statements; London trade standard). Starting values need only be of that order.
  it.each([
    ['lounge-jacket', 40, 60],
    ['waistcoat', 12, 25],
    ['trousers', 15, 25],
    ['overcoat', 50, 70],
  ])('plan a %s in the order of what makers state: %i to %i h', (id, least, most) => {
    expect(hoursOf(id)).toBeGreaterThanOrEqual(least);
    expect(hoursOf(id)).toBeLessThanOrEqual(most);
  });

  // 20,548 stitches of a shirt (Hone, Every-Day Book, 1826) at 23 a minute (Cooper, Smithsonian Bulletin 254, trial of 1861):
  // 893.4 min, answer derived. The starting lines are rounded to twentieths of an hour.
  it('sew a shirt in the time its published stitches take', () => {
    const sewn = plan('shirt', 'all-hand').plan.filter(({ name }) => name.endsWith(' st)'));
    const minutes = planMinutes(sewn).minutes;
    expect(Math.abs(minutes / (20548 / 23) - 1)).toBeLessThan(0.02);
  });

  it('leave alternatives and what must be asked out of a plan', () => {
    const names = plan('lounge-jacket', 'hand-where-it-shows').plan.map(({ name }) => name);
    expect(names).toHaveLength(34);
    expect(names).not.toContain('Toile: cut, baste, try on (optional)');
    expect(names).not.toContain('Embroidery');
  });

  it('let the make choose among alternatives', () => {
    const names = (id: string, make: (typeof MAKES)[number]) => plan(id, make).plan.map(({ name }) => name);
    expect(names('lounge-jacket', 'all-hand')).toContain('Darts and body seams (hand, instead of machine)');
    expect(names('lounge-jacket', 'all-hand')).not.toContain('Darts and body seams (machine)');
    expect(names('lounge-jacket', 'machine')).toContain('Darts and body seams (machine)');
    expect(names('corset', 'hand-where-it-shows')).toContain('Boning channels — by hand (instead)');
    expect(names('corset', 'machine')).toContain('Boning channels — machine');
    expect(names('shirt', 'machine')).toEqual([
      'Measure and spec',
      'Draft and cut (fitted, instead of the line above)',
      'Whole shirt seamed by machine (instead)',
      'Buttonholes',
      'Press',
    ]);
  });

  it('say where no hand time is known, and invent none', () => {
    expect(plan('trousers', 'all-hand').remarks[0]).toContain('“Leg, seat and fork seams”');
    expect(plan('trousers', 'hand-where-it-shows').remarks).toEqual([]);
    expect(plan('alteration', 'machine')).toMatchObject({ plan: [] });
  });

  it.each(MAKES.map((make) => [make]))('give every type a plan that can be summed: %s', (make) => {
    for (const type of starter.garmentTypes.filter(({ isMenu }) => !isMenu)) {
      const sums = planMinutes(plan(type.id, make).plan);
      expect(sums.minutes).toBeGreaterThan(0);
      expect(sums.needMinutes).toEqual([]);
    }
  });

  it('know an inside pocket when it is typed', () => {
    const jacket = starter.operations.filter(({ garmentType }) => garmentType === 'lounge-jacket');
    const line = readSpecLine('inside pocket 2', jacket, starter.operations);
    expect(line.kind === 'ok' && line.value.known.name).toBe('Inside pockets');
  });

  it('find each listed operation by its own name', () => {
    for (const known of starter.operations.filter(({ isMenu }) => !isMenu)) {
      const pool = starter.operations.filter(({ garmentType }) => garmentType === known.garmentType);
      const line = readSpecLine(known.name, pool);
      expect(line.kind === 'ok' && line.value.known.name).toBe(known.name);
    }
  });

  it('carry a caution for each danger, called up by the words of the trade', () => {
    expect(starter.cautions.length).toBeGreaterThanOrEqual(25);
    const ids = (text: string) => cautionsFor(text, starter.cautions).map(({ id }) => id);
    expect(ids('Celluloid collar bones')).toEqual(['celluloid']);
    expect(ids('Antique green silk')).toEqual(expect.arrayContaining(['green-dyes']));
    expect(ids('Horn buttons, 15 mm')).toEqual(['children-cords']);
    expect(ids('Leadenhall tweed')).toEqual([]);
  });
});

describe('tab-separated lines', () => {
  it('refuse other columns and ragged lines', () => {
    expect(linesOf('a\tb\n1\t2\n', ['a', 'b'])).toEqual([{ a: '1', b: '2' }]);
    expect(() => linesOf('a\tc\n1\t2', ['a', 'b'])).toThrow('expected: a, b');
    expect(() => linesOf('a\tb\n1', ['a', 'b'])).toThrow('Line 2 has 1 columns');
  });
});
