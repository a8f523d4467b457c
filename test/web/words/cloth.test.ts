import { describe, expect, it } from 'vitest';
import { quantityInWords, readCloth } from '../../../src/web/words/cloth.js';

const metric = { currency: 'GBP', locale: 'en-GB', clothUnit: 'm' as const };
const yards = { ...metric, clothUnit: 'yd' as const };

const read = (typed: string, manner = metric as typeof metric | typeof yards) => {
  const reading = readCloth(typed, manner);
  if (reading.kind === 'ask') return reading.choices.map((choice) => choice.typed);
  if (reading.kind !== 'ok') return reading.kind;
  const { quantity, metres, unitPrice } = reading.value;
  return [quantity.toString(), metres?.toFixed(), unitPrice?.toString()];
};

describe('a quantity of material as a person types it', () => {
  // International yard and pound agreement, 1959: 1 yd = 0.9144 m, so 2 3/4 yd = 2.5146 m exactly.
  it('takes 2 3/4 yd for 2.5146 m', () => {
    expect(read('2 3/4 yd')).toEqual(['2.75 yd', '2.5146', undefined]);
    expect(read('2¾', yards)).toEqual(['2.75 yd', '2.5146', undefined]);
  });

  it('takes 3.2m @ 46 for a quantity and a price for one', () => {
    expect(read('3.2m @ 46')).toEqual(['3.2 m', '3.2', '46.00']);
    expect(read('3.2 m at £46.50')).toEqual(['3.2 m', '3.2', '46.50']);
    expect(read('3,2 m @46')).toEqual(['3.2 m', '3.2', '46.00']);
  });

  it.each([
    ['3.2', ['3.2 m', '3.2', undefined]],
    ['320 cm', ['3.2 m', '3.2', undefined]],
    ['12 pieces', ['12 piece', undefined, undefined]],
    ['12 pcs @ 3.20', ['12 piece', undefined, '3.20']],
    ['1 pair', ['1 pair', undefined, undefined]],
    ['250 g', ['250 g', undefined, undefined]],
    ['1.5 m²', ['1.5 m2', undefined, undefined]],
  ])('takes “%s”', (typed, expected) => {
    expect(read(typed)).toEqual(expected);
  });

  it('asks what has two meanings, and each choice is understood', () => {
    expect(read('2 3/4')).toEqual(['2 3/4 m', '2 3/4 yd']);
    expect(read('2 3/4 @ 46')).toEqual(['2 3/4 m @ 46', '2 3/4 yd @ 46']);
    expect(read('2 3/4 yd @ 46')).toEqual(['2.75 yd', '2.5146', '46.00']);
    expect(read('3.2 m @ 1.234,50')).toEqual(['3.2 m @ 1234.50']);
  });

  it.each([
    '-1 m',
    '3 furlongs',
    'some',
    'NaN',
    '1e308 m',
    '3 m @',
    '3 m @ -4',
    '3 @ 4 @ 5',
    '2 5/4 yd',
    '9'.repeat(400),
    '9999999 m',
  ])('refuses “%s”', (typed) => {
    expect(read(typed)).toBe('refuse');
  });

  it('takes nothing for nothing', () => {
    expect(read(' ')).toBe('empty');
  });

  it('is shown in the unit typed', () => {
    const shown = (typed: string) => {
      const reading = readCloth(typed, metric);
      return reading.kind === 'ok' ? quantityInWords(reading.value.quantity) : reading.kind;
    };
    expect(shown('2 3/4 yd')).toBe('2.75 yd');
    expect(shown('1 1/3 yd')).toBe('1.3333 yd');
    expect(shown('12 pieces')).toBe('12 pieces');
    expect(shown('1 pair')).toBe('1 pair');
  });
});
