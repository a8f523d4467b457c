import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { OutOfRange } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import {
  marginOfMarkup,
  markupOfMargin,
  priceFromMargin,
  priceFromMarkup,
  profitOf,
} from '../../../src/domain/pricing/margin.js';
import { workOutPrice } from '../../../src/domain/pricing/work-out-price.js';
import { hourlyRate } from '../../../src/domain/rates/hourly-rate.js';

const d = (number: string | number) => new Decimal(number);
const usd = (amount: string) => Money.parse(amount, 'USD');

describe('Principles of Accounting, Vol. 2 (OpenStax, 2019), cost-plus pricing (module m68079)', () => {
  it('PR-19 markup of 30 %: 13.00 on a variable cost of 10, 15.60 on a full cost of 12', () => {
    expect(priceFromMarkup(usd('10'), d('0.30')).toString()).toBe('13.00');
    expect(priceFromMarkup(usd('12'), d('0.30')).toString()).toBe('15.60');
  });

  it('PR-19 the same through the whole price', () => {
    const net = (cost: string) =>
      workOutPrice({
        currency: 'USD',
        labour: { perHour: d(0) },
        expenses: [{ name: 'cost', amount: usd(cost) }],
        pricing: { markup: d('0.30') },
      }).price.net.toString();
    expect([net('10'), net('12')]).toEqual(['13.00', '15.60']);
  });
});

describe('Principles of Accounting, Vol. 2 (OpenStax, 2019), chapter 3 (module m68116)', () => {
  it('PR-18 80 less 40 % is 48', () => {
    const list = usd('80');
    const { price } = workOutPrice({
      currency: 'USD',
      labour: { perHour: d(0) },
      expenses: [{ name: 'at list price', amount: list }],
      pricing: { discount: list.timesRounded(d('0.40')) },
    });
    expect(price.net.toString()).toBe('48.00');
  });
});

describe('markup and margin', () => {
  it('PR-20 cost 40 and markup 50 %: price 60, margin 33.33 % (calcreal.com markup calculator; secondary)', () => {
    const price = priceFromMarkup(usd('40'), d('0.50'));
    expect(price.toString()).toBe('60.00');
    expect(profitOf(price, usd('40')).margin?.times(100).toFixed(2)).toBe('33.33');
  });

  it('PR-21 markup of 20 % is a margin of 16.67 % (algebra.com, solution 243881; secondary)', () => {
    expect(marginOfMarkup(d('0.2')).times(100).toFixed(2)).toBe('16.67');
  });

  it('PR-22 the two are each other’s inverse (answer derived)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 9_999 }), (basis) => {
        const margin = d(basis).div(10_000);
        expect(marginOfMarkup(markupOfMargin(margin)).toFixed(20)).toBe(margin.toFixed(20));
      }),
    );
  });

  it.each([
    [d(25).div(100), '20.00'],
    [d(1).div(3), '25.00'],
    [d('0.5'), '33.33'],
    [d(2).div(3), '40.00'],
    [d(1), '50.00'],
    [d('1.5'), '60.00'],
    [d(3), '75.00'],
  ])('PR-23 markup %s is a margin of %s %% (answer derived)', (markup, margin) => {
    expect(marginOfMarkup(markup).times(100).toFixed(2)).toBe(margin);
  });

  it('margin is a share of the price: 40 % on 600.00 is 1,000.00, 40 % of markup 840.00', () => {
    expect(priceFromMargin(usd('600'), d('0.40')).toString()).toBe('1000.00');
    expect(priceFromMarkup(usd('600'), d('0.40')).toString()).toBe('840.00');
  });

  it('rounding never eats the margin', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 10_000_000 }),
        fc.integer({ min: 0, max: 99 }),
        (minor, percent) => {
          const cost = Money.ofMinor(minor, 'USD');
          const margin = d(percent).div(100);
          expect(profitOf(priceFromMargin(cost, margin), cost).margin?.gte(margin)).toBe(true);
        },
      ),
    );
  });

  it('refuses a margin of the whole price and a markup below nought', () => {
    expect(() => priceFromMargin(usd('1'), d(1))).toThrow(OutOfRange);
    expect(() => priceFromMarkup(usd('1'), d('-0.01'))).toThrow(OutOfRange);
  });
});

describe('ANZ Bank New Zealand, Tips for calculating an accurate charge-out rate', () => {
  it('PR-25 80,000 wanted and a levy of 1,500: 81,500 over 40 × 52 = 2,080 h (the example is read in part)', () => {
    const rate = hourlyRate({
      currency: 'NZD',
      pay: Money.parse('80000', 'NZD'),
      onCosts: [{ name: 'levy', amount: Money.parse('1500', 'NZD') }],
      year: { weeks: d(52), hoursAWeek: d(40), productiveShare: d(1) },
    });
    expect(`${rate.labourAYear} over ${rate.hours.worked}`).toBe('81500.00 over 2080');
  });
});
