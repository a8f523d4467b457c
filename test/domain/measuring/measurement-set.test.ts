import { describe, expect, it } from 'vitest';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { differences } from '../../../src/domain/measuring/difference.js';
import { questionAboutFiguration } from '../../../src/domain/measuring/figuration.js';
import { addSet, lastSet, measurementSet } from '../../../src/domain/measuring/measurement-set.js';
import { aSet, taken } from './a-set.js';

const today = '2026-03-02';

const fieldsAtFault = (change: Partial<ReturnType<typeof aSet>>): string[] => {
  try {
    measurementSet({ ...aSet({ 'chest-girth': '97.8 cm' }), ...change }, today);
  } catch (trouble) {
    if (trouble instanceof Invalid) return trouble.fields.map(({ field }) => field);
    throw trouble;
  }
  return [];
};

describe('a measurement set', () => {
  it('is kept as filled in', () => {
    const set = aSet({ 'chest-girth': '38 1/2 in', 'waist-girth': '82 cm' });
    expect(measurementSet(set, today)).toEqual(set);
  });

  it('says by the field what is missing', () => {
    expect(fieldsAtFault({ takenOn: '2026-03-03' })).toEqual(['takenOn']);
    expect(fieldsAtFault({ takenBy: ' ', values: [] })).toEqual(['takenBy', 'values']);
    expect(fieldsAtFault({ takenBy: 'x'.repeat(400) })).toEqual(['takenBy']);
    expect(fieldsAtFault({ values: [taken('chest-girth', '97 cm'), taken('chest-girth', '98 cm')] })).toEqual(
      ['values.chest-girth'],
    );
    expect(() => measurementSet(aSet({ a: '1 cm' }, { takenOn: '2026-02-30' }), today)).toThrow(
      'is not a date',
    );
  });

  it('is never overwritten, and the newest comes last', () => {
    const older = aSet({ 'chest-girth': '97 cm' }, { id: 'a', takenOn: '2025-01-10' });
    const newer = aSet({ 'chest-girth': '98 cm' }, { id: 'b', takenOn: '2026-01-10' });
    const sets = addSet(addSet([], newer), older);
    expect(sets.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(() => addSet(sets, { ...older, takenBy: 'another' })).toThrow('not overwritten');
    expect(lastSet(sets, '2025-12-31')?.id).toBe('a');
    expect(lastSet(sets, '2026-03-02')?.id).toBe('b');
    expect(lastSet(sets, '2026-03-02', 'b')?.id).toBe('a');
    expect(lastSet(sets, '2024-01-01')).toBeUndefined();
  });
});

describe('the difference from the last set', () => {
  it('stands in the unit typed now', () => {
    const last = aSet({ 'chest-girth': '38 in', 'waist-girth': '83.2 cm', 'hip-girth': '100 cm' });
    const now = aSet({
      'chest-girth': '38 1/2 in',
      'waist-girth': '82 cm',
      'hip-girth': '100 cm',
      'neck-girth': '15 1/3 in',
    });
    expect(differences(now, last).map(({ dimension, mm, shown }) => [dimension, mm, shown])).toEqual([
      ['chest-girth', '12.7', '+1/2 in'],
      ['waist-girth', '-12', '−1.2 cm'],
      ['hip-girth', '0', '0 cm'],
      ['neck-girth', undefined, undefined],
    ]);
  });

  it('crosses units exactly', () => {
    const [one] = differences(aSet({ a: '100 cm' }), aSet({ a: '39 in' }));
    expect(one).toMatchObject({ mm: '9.4', shown: '+0.94 cm' });
  });
});

describe('figuration', () => {
  it('asks about weight, body index and reasons of health, not about posture', () => {
    expect(questionAboutFiguration('BMI 31')).toContain('“BMI”');
    expect(questionAboutFiguration('weighs more since surgery')).toContain('“weighs”');
    expect(questionAboutFiguration('erect, left shoulder lower')).toBeUndefined();
  });
});
