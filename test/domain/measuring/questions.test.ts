import { describe, expect, it } from 'vitest';
import { type BodyDimension, bodyDimension } from '../../../src/domain/measuring/body-dimension.js';
import { isChild, questionsAbout } from '../../../src/domain/measuring/questions.js';
import { aSet, taken } from './a-set.js';

const dimension = (id: string, tradeWord: string, sort: string, survey: string): BodyDimension =>
  bodyDimension({ id, name: id, fromStandard: 'yes', tradeWord, sort, how: '', survey, source: 'test' });

const dimensions = [
  dimension('chest-girth', 'Chest', 'girth', 'chestcircumference'),
  dimension('wrist-girth', 'Wrist', 'girth', 'wristcircumference'),
  dimension('knee-girth', 'Knee', 'girth', ''),
  dimension('shoulder-drop', 'Drop', 'correction', ''),
];
const adult = { isChild: false };
const ask = (now: Record<string, string>, last?: Record<string, string>, wearer = adult) =>
  questionsAbout(aSet(now), last && aSet(last), wearer, dimensions);

describe('is that right?', () => {
  it('asks nothing about ordinary values', () => {
    expect(ask({ 'chest-girth': '97.8 cm', 'wrist-girth': '17 cm' })).toEqual([]);
  });

  // ANSUR II chest: smallest 695, largest 1469 mm; by 25 %: 521.25 and 1836.25.
  it.each([
    ['52.2 cm', 0],
    ['52.1 cm', 1],
    ['183.6 cm', 0],
    ['183.7 cm', 1],
  ])('compares the first set with the survey and a quarter more: chest %s', (typed, count) => {
    expect(ask({ 'chest-girth': typed })).toHaveLength(count);
  });

  it('guesses a wrong unit', () => {
    const [question] = ask({ 'chest-girth': '38.5 cm' });
    expect(question).toMatchObject({
      why: 'beyond-the-survey',
      sentence: 'Chest: 38.5 cm would be very unusual. Is that right? Did you mean 38 1/2 in?',
      choices: [{ typed: '38 1/2 in' }],
    });
  });

  it('guesses a doubled digit', () => {
    const [question] = ask({ 'wrist-girth': '177 cm' });
    expect(question?.choices.map(({ typed }) => typed)).toContain('17 cm');
  });

  it('guesses a lost decimal point', () => {
    const [question] = ask({ 'wrist-girth': '172 cm' });
    expect(question?.choices.map(({ typed }) => typed)).toContain('17.2 cm');
  });

  it('compares with this client’s last set first', () => {
    const [question] = ask({ 'chest-girth': '118 cm' }, { 'chest-girth': '97.8 cm' });
    expect(question).toMatchObject({ why: 'far-from-last-set' });
    expect(question?.sentence).toBe('Chest: 118 cm, and last time it was 97.8 cm. Is that right?');
    expect(ask({ 'chest-girth': '104 cm' }, { 'chest-girth': '97.8 cm' })).toEqual([]);
  });

  it('does not doubt an unusual value that this client had last time', () => {
    expect(ask({ 'chest-girth': '190 cm' }, { 'chest-girth': '188 cm' })).toEqual([]);
  });

  it('does not ask again about a value the person stood by', () => {
    const set = aSet({}, { values: [taken('chest-girth', '38.5 cm', true)] });
    expect(questionsAbout(set, undefined, adult, dimensions)).toEqual([]);
  });

  it('never compares a child, with the survey or with the last set', () => {
    const child = { isChild: true };
    expect(ask({ 'chest-girth': '38.5 cm' }, { 'chest-girth': '60 cm' }, child)).toEqual([]);
    expect(ask({ 'chest-girth': '38.5 cm' }, undefined, child)).toEqual([]);
  });

  it('asks nothing where no survey measures the same thing', () => {
    expect(ask({ 'knee-girth': '200 cm', 'shoulder-drop': '-1 cm', unknown: '5 cm' })).toEqual([]);
  });
});

describe('a child', () => {
  it('is under eighteen on the day, or marked so', () => {
    expect(isChild('2008-03-03', '2026-03-02')).toBe(true);
    expect(isChild('2008-03-02', '2026-03-02')).toBe(false);
    expect(isChild(undefined, '2026-03-02')).toBe(false);
    expect(isChild(undefined, '2026-03-02', true)).toBe(true);
  });
});
