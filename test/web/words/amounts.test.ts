import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Money } from '../../../src/domain/kernel/money.js';
import { amountInWords, moneyForField, moneyInWords, readMoney } from '../../../src/web/words/amounts.js';

const pounds = { currency: 'GBP', locale: 'en-GB' };
const euros = { currency: 'EUR', locale: 'de-DE' };
const yen = { currency: 'JPY', locale: 'en-GB' };
const dinars = { currency: 'KWD', locale: 'en-GB' };

const amount = (typed: string, manner = pounds, options = {}) => {
  const reading = readMoney(typed, manner, options);
  if (reading.kind === 'ok') return reading.value.toString();
  return reading.kind === 'ask' ? reading.choices.map((choice) => choice.typed) : reading.kind;
};

describe('money as a person types it', () => {
  it.each([
    '1,234.50',
    '1234.5',
    '£1234.50',
    '£ 1,234.50',
    '1234.50 GBP',
    'gbp 1234.50',
    '1 234.50',
    "1'234.50",
    '１２３４.５０',
  ])('takes “%s” for 1234.50', (typed) => {
    expect(amount(typed)).toBe('1234.50');
  });

  it('takes 1.234,50 where the locale writes it so, and asks where it does not', () => {
    expect(amount('1.234,50', euros)).toBe('1234.50');
    expect(amount('1.234,50')).toEqual(['1234.50']);
    expect(amount('1,234.50', euros)).toEqual(['1234,50']);
    expect(amount('1234,50', euros)).toBe('1234.50');
    expect(amount('1234,50')).toEqual(['1234.50']);
    expect(amount('1.234', euros)).toBe('1234.00');
    expect(amount('1,234')).toBe('1234.00');
    expect(amount('1.234')).toEqual(['1234.00']);
    expect(amount('1.234.567')).toEqual(['1234567.00']);
  });

  it('offers choices that are understood', () => {
    for (const manner of [pounds, euros]) {
      for (const typed of ['1.234,50', '1,234.50', '12,5', '12.5', '1.234', '1,234']) {
        const choices = amount(typed, manner);
        for (const choice of Array.isArray(choices) ? choices : [])
          expect(amount(choice, manner)).toMatch(/^\d+\.\d\d$/);
      }
    }
  });

  it('keeps to the decimals of the currency', () => {
    expect(amount('1234', yen)).toBe('1234');
    expect(amount('¥1,234', yen)).toBe('1234');
    expect(amount('12.50', yen)).toBe('refuse');
    expect(amount('1.234', dinars)).toBe('1.234');
    expect(amount('1.2345', dinars)).toBe('refuse');
    expect(amount('31.505')).toEqual(['31505.00']);
    expect(amount('31.5055')).toBe('refuse');
  });

  it('tells nought from nothing', () => {
    expect(amount('0.00')).toBe('0.00');
    expect(amount('')).toBe('empty');
  });

  it('takes an amount below nought only where it may be', () => {
    expect(amount('-4')).toBe('refuse');
    expect(amount('−4', pounds, { mayBeNegative: true })).toBe('-4.00');
    expect(amount('-£4.00', pounds, { mayBeNegative: true })).toBe('-4.00');
  });

  it.each([
    '1234567890123',
    'NaN',
    '1e308',
    'Infinity',
    'twelve',
    '€12',
    '12 USD',
    '12..5',
    '1,23,4',
    '9'.repeat(400),
    '<b>1</b>',
    '£1£',
    '1.2.3',
  ])('refuses “%s” with a sentence', (typed) => {
    const reading = readMoney(typed, pounds);
    expect(reading.kind).toBe('refuse');
    expect(reading.kind === 'refuse' && reading.sentence).toMatch(/\.$/);
  });

  it('takes twelve figures and refuses what cannot be kept exactly', () => {
    expect(amount('123456789012.34')).toBe('123456789012.34');
    expect(amount('999999999999', { currency: 'CLF', locale: 'en-GB' })).toBe('refuse');
  });
});

describe('money in words', () => {
  it('stands in the studio’s manner', () => {
    expect(moneyInWords(Money.parse('1234.5', 'GBP'), 'en-GB')).toBe('£1,234.50');
    expect(moneyInWords(Money.parse('1234.5', 'EUR'), 'de-DE')).toBe('1.234,50 €');
    expect(moneyInWords(Money.parse('-4', 'GBP'), 'en-GB')).toBe('−£4.00');
    expect(amountInWords(Money.parse('1234.5', 'GBP'), 'en-GB')).toBe('1,234.50');
    expect(amountInWords(Money.parse('1234', 'JPY'), 'en-GB')).toBe('1,234');
    expect(amountInWords(Money.parse('1.5', 'KWD'), 'en-GB')).toBe('1.500');
  });

  it('is exact far beyond what a float holds', () => {
    expect(amountInWords(Money.ofMinor(9007199254740991, 'GBP'), 'en-GB')).toBe('90,071,992,547,409.91');
  });

  it('comes back from its field and its words unchanged', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 10 ** 12 - 1 }),
        fc.constantFrom(pounds, euros, yen, dinars),
        (minor, manner) => {
          const money = Money.ofMinor(minor, manner.currency);
          expect(amount(moneyForField(money, manner.locale), manner)).toBe(money.toString());
          expect(amount(moneyInWords(money, manner.locale), manner)).toBe(money.toString());
        },
      ),
    );
  });
});
