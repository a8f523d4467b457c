import { describe, expect, it } from 'vitest';
import { readTimeOfDay } from '../../../src/web/words/times.js';

const read = (typed: string): string => {
  const reading = readTimeOfDay(typed);
  return reading.kind === 'ok' ? reading.value : reading.kind;
};

describe('a time on the clock', () => {
  it.each([
    ['14:30', '14:30'],
    ['9.05', '09:05'],
    ['9h', '09:00'],
    ['9h05', '09:05'],
    ['2.30 pm', '14:30'],
    ['12 am', '00:00'],
    ['12:15 p.m.', '12:15'],
    ['Noon', '12:00'],
    ['', 'empty'],
    ['24:00', 'refuse'],
    ['14:60', 'refuse'],
    ['13 pm', 'refuse'],
    ['tea', 'refuse'],
    ['14:3', 'refuse'],
  ])('%j is %s', (typed, meant) => expect(read(typed)).toBe(meant));
});
