import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minutesForField, minutesInWords, readDuration } from '../../../src/web/words/durations.js';
import { confirmed } from '../../../src/web/words/reading.js';

const minutes = (typed: string, field = {}) => {
  const reading = readDuration(typed, field);
  return reading.kind === 'ok' ? reading.value : reading.kind;
};

describe('a time worked as a person types it', () => {
  it.each([
    '1:30',
    '1h30',
    '1 h 30 m',
    '1h 30m',
    '90m',
    '90 min',
    '1.5',
    '1,5',
    '1 1/2',
    '1½',
    '1.5h',
    '1 hour 30 minutes',
    '1½ h',
    '１:３０',
  ])('takes “%s” for 90 minutes', (typed) => {
    expect(minutes(typed)).toBe(90);
  });

  it.each([
    ['2h', 120],
    ['45 min', 45],
    ['0:05', 5],
    ['1/2', 30],
    ['.25', 15],
    ['0', 0],
    ['0:00', 0],
    ['1.51', 91],
    ['24:00', 1440],
  ])('takes “%s” for %i minutes', (typed, expected) => {
    expect(minutes(typed)).toBe(expected);
  });

  it('asks once about a bare 90, and uses the answer afterwards', () => {
    const reading = readDuration('90');
    expect(reading).toMatchObject({ kind: 'ask', sentence: '90: minutes or hours?' });
    const choices = reading.kind === 'ask' ? reading.choices : [];
    expect(choices.map(({ typed }) => minutes(typed, { askAbove: 10_000 }))).toEqual([90, 5400]);
    expect(minutes('90', { bare: 'minutes' })).toBe(90);
    expect(minutes('2', { bare: 'hours' })).toBe(120);
  });

  it('warns about 25:00 and keeps it when confirmed', () => {
    const reading = readDuration('25:00');
    expect(reading).toMatchObject({ kind: 'ask', sentence: '25 h is a long time in one go. Is that right?' });
    expect(confirmed(reading, true)).toEqual({ kind: 'ok', value: 1500 });
    expect(minutes('25:00', { askAbove: 6000 })).toBe(1500);
  });

  it.each([
    '1:75',
    '1h75',
    '-1',
    '-0:30',
    'NaN',
    '1e308',
    'an hour',
    '1:30:20',
    '9'.repeat(400),
    '99999 h',
    '1/0',
    '3/2',
    '{{1}}',
    '1 2',
  ])('refuses “%s” with a sentence', (typed) => {
    const reading = readDuration(typed);
    expect(reading.kind).toBe('refuse');
    expect(reading.kind === 'refuse' && reading.sentence).toMatch(/[.?]$/);
  });

  it('takes nothing for nothing', () => {
    expect(minutes('  ')).toBe('empty');
  });
});

describe('minutes in words', () => {
  it.each([
    [90, '1 h 30'],
    [45, '45 min'],
    [60, '1 h'],
    [725, '12 h 05'],
    [0, '0 min'],
    [-125, '−2 h 05'],
  ])('%i is “%s”', (count, words) => {
    expect(minutesInWords(count)).toBe(words);
  });

  it('come back from the field and from the words unchanged', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1440 }), (count) => {
        expect(minutes(minutesForField(count))).toBe(count);
        expect(minutes(minutesInWords(count))).toBe(count);
      }),
    );
  });
});
