import { describe, expect, it } from 'vitest';
import { CUT_QUESTIONS, checkCutting, sinceCutting } from '../../../src/domain/commissions/cutting.js';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { readLength } from '../../../src/domain/measuring/length-entry.js';
import type { MeasurementSet } from '../../../src/domain/measuring/measurement-set.js';

const entry = (typed: string) => {
  const read = readLength(typed, { preferred: 'in' });
  if (read.kind !== 'ok') throw new Error(typed);
  return read.value;
};
const set = (id: string, values: Record<string, string>): MeasurementSet => ({
  id,
  wearer: 'corvin',
  takenOn: '2026-03-02',
  takenBy: 'Odalys Fenwright',
  over: 'shirt and trousers',
  figuration: '',
  values: Object.entries(values).map(([dimension, typed]) => ({
    dimension,
    entry: entry(typed),
    confirmed: false,
  })),
});
const answers = (isSo: boolean | undefined, words = '') =>
  CUT_QUESTIONS.map((question) => ({ question, isSo, words, known: '' }));
const fieldsOf = (act: () => unknown): string[] => {
  try {
    act();
  } catch (error) {
    if (error instanceof Invalid) return error.fields.map(({ field }) => field);
    throw error;
  }
  return [];
};

describe('what is asked when cutting is recorded', () => {
  it('wants an answer to each of the four', () => {
    expect(fieldsOf(() => checkCutting(answers(undefined)))).toEqual([...CUT_QUESTIONS]);
    expect(fieldsOf(() => checkCutting(answers(true).slice(1)))).toEqual(['measurements']);
  });

  it('lets the maker go on where something is not so, with words', () => {
    expect(fieldsOf(() => checkCutting(answers(false)))).toContain('depositWords');
    expect(checkCutting(answers(false, 'He pays on Friday')).every(({ isSo }) => !isSo)).toBe(true);
  });
});

describe('what changed since it was cut', () => {
  const cut = set('s1', { chest: '40 in', waist: '36 1/2 in' });

  it('is every measurement that is another now, and every one not taken then', () => {
    const latest = set('s2', { chest: '40 in', waist: '37 in', seat: '41 in' });
    expect(sinceCutting(cut, latest).map(({ dimension, shown }) => [dimension, shown])).toEqual([
      ['waist', '+1/2 in'],
      ['seat', undefined],
    ]);
  });

  it('is nothing where nothing was measured since, or all came out the same in another unit', () => {
    expect(sinceCutting(cut, cut)).toEqual([]);
    expect(sinceCutting(cut, undefined)).toEqual([]);
    expect(sinceCutting(cut, set('s3', { chest: '101.6 cm' }))).toEqual([]);
  });

  it('is the whole set where it was cut without measurements', () => {
    expect(sinceCutting(undefined, cut)).toHaveLength(2);
  });
});
