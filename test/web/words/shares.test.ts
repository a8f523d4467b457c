import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { capitalised, countInWords, listInWords } from '../../../src/web/words/counts.js';
import { differenceInWords, lengthForField, readLength } from '../../../src/web/words/lengths.js';
import { fieldAnswer } from '../../../src/web/words/reading.js';
import { readPercent, shareForField, shareInWords } from '../../../src/web/words/shares.js';

const share = (typed: string, field = {}) => {
  const reading = readPercent(typed, field);
  return reading.kind === 'ok' ? reading.value.toFixed() : reading.kind;
};

describe('a percentage as a person types it', () => {
  it.each([
    ['15', '0.15'],
    ['15 %', '0.15'],
    ['62,5', '0.625'],
    ['62.5 per cent', '0.625'],
    ['0', '0'],
    ['-0', '0'],
    ['100', '1'],
  ])('takes “%s” for %s', (typed, expected) => {
    expect(share(typed)).toBe(expected);
  });

  it('keeps to its bounds', () => {
    expect(share('101')).toBe('refuse');
    expect(share('-1')).toBe('refuse');
    expect(share('150', { most: 300 })).toBe('1.5');
    expect(share('100', { below: 100 })).toBe('refuse');
    expect(share('99.9', { below: 100 })).toBe('0.999');
  });

  it.each(['NaN', '1e308', 'half', '15 % %', '9'.repeat(400)])('refuses “%s”', (typed) => {
    expect(share(typed)).toBe('refuse');
  });

  it('is shown in words', () => {
    expect(shareInWords(new Decimal('0.62'))).toBe('62 %');
    expect(shareInWords(new Decimal('0.6249'), 1)).toBe('62.5 %');
    expect(shareInWords(new Decimal('-0.1'), 0)).toBe('−10 %');
    expect(shareInWords(new Decimal('0.625'), 1, ',')).toBe('62,5 %');
    expect(shareForField(new Decimal('0.625'))).toBe('62.5');
  });
});

describe('counts and lists in words', () => {
  it('say no, one and several', () => {
    expect([0, 1, 12].map((count) => countInWords(count, 'garment'))).toEqual([
      'no garments',
      'one garment',
      '12 garments',
    ]);
    expect(countInWords(2, 'pair of trousers', 'pairs of trousers')).toBe('2 pairs of trousers');
  });

  it('join words', () => {
    expect(listInWords([])).toBe('');
    expect(listInWords(['jacket'])).toBe('jacket');
    expect(listInWords(['jacket', 'waistcoat', 'breeches'])).toBe('jacket, waistcoat and breeches');
    expect(capitalised('breeches')).toBe('Breeches');
    expect(capitalised('')).toBe('');
  });
});

describe('what a form shows beside a field', () => {
  it('is a value, a sentence with choices, or nothing', () => {
    const preferred = 'cm' as const;
    expect(fieldAnswer('chest', readLength('97.8', { preferred })).value?.mm).toBe('978');
    expect(fieldAnswer('chest', readLength('', { preferred }))).toEqual({});
    expect(fieldAnswer('chest', readLength('', { preferred }), 'Measure the chest.').trouble?.text).toBe(
      'Measure the chest.',
    );
    expect(fieldAnswer('chest', readLength('978', { preferred })).trouble).toMatchObject({
      field: 'chest',
      mayConfirm: true,
    });
    expect(fieldAnswer('chest', readLength('38 1/2', { preferred })).trouble).toMatchObject({
      mayConfirm: false,
    });
    expect(fieldAnswer('chest', readLength('1/0', { preferred })).trouble?.choices).toEqual([]);
  });

  it('gives a measurement back with its unit', () => {
    const reading = readLength('-38½ full', { preferred: 'in', signed: true });
    expect(reading.kind === 'ok' && lengthForField(reading.value)).toBe('-38 1/2 in full');
  });

  it('says what changed since last time', () => {
    const reading = readLength('97.8', { preferred: 'cm' });
    if (reading.kind !== 'ok') throw new Error('not understood');
    const now = { dimension: 'chest-girth', now: reading.value };
    expect(differenceInWords(now)).toBe('first time');
    expect(differenceInWords({ ...now, mm: '0', shown: '0 cm' })).toBe('as last time');
    expect(differenceInWords({ ...now, mm: '5', shown: '+0.5 cm' })).toBe('+0.5 cm');
  });
});
