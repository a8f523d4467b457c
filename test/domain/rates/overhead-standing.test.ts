import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { budgetedOverhead, overheadStanding } from '../../../src/domain/rates/overhead-standing.js';
import { type RateCard, rateCard } from '../../../src/domain/rates/rate-card.js';

const d = (number: number | string) => new Decimal(number);
const eur = (amount: number | string) => Money.parse(String(amount), 'EUR');

/** A card of 100 productive hours a year, with so much overhead a year. */
const aCard = (from: string, overhead: string): RateCard =>
  rateCard(from, {
    currency: 'EUR',
    people: [
      {
        name: 'Odalys',
        pay: eur('1000'),
        onCosts: [],
        year: { weeks: d(10), hoursAWeek: d(10), productiveShare: d(1) },
        perHourByMode: {},
      },
    ],
    overhead: [{ name: 'Rent', amount: eur(overhead), pool: 'workroom', base: 'productive-hours' }],
  });

describe('where overhead stands', () => {
  it('says nothing of an hour before one was worked', () => {
    const standing = overheadStanding({
      incurred: eur('120'),
      absorbed: eur('0'),
      budgeted: eur('100'),
      hours: d(0),
    });
    expect([standing.absorbedPerHour, standing.neededPerHour, standing.factor]).toEqual([null, null, null]);
    expect(standing.verdict).toBe('under-absorbed');
  });

  it('is even when the work took up what was spent', () => {
    const all = { incurred: eur('50'), absorbed: eur('50'), budgeted: eur('40'), hours: d(10) };
    const standing = overheadStanding(all);
    expect([standing.verdict, standing.spending.toString(), standing.volume.toString()]).toEqual([
      'even',
      '-10.00',
      '10.00',
    ]);
  });

  it('always splits into spending and volume', () => {
    const minor = fc.integer({ min: -1e9, max: 1e12 });
    fc.assert(
      fc.property(minor, minor, minor, (a, b, c) => {
        const [incurred, absorbed, budgeted] = [a, b, c].map((one) => Money.ofMinor(one, 'EUR'));
        const { spending, volume, difference } = overheadStanding({
          incurred: incurred!,
          absorbed: absorbed!,
          budgeted: budgeted!,
          hours: d(1),
        });
        expect(spending.plus(volume).equals(difference)).toBe(true);
      }),
    );
  });
});

describe('overhead budgeted for some days', () => {
  it('is a 365th of the year for each day', () => {
    const budgeted = (from: string, to: string) =>
      budgetedOverhead([aCard('2026-01-01', '3650')], from, to, 'EUR').toString();
    expect(budgeted('2026-01-01', '2026-01-01')).toBe('10.00');
    expect(budgeted('2026-01-01', '2026-12-31')).toBe('3650.00');
    expect(budgeted('2028-01-01', '2028-12-31')).toBe('3650.00');
  });

  it('follows the cards, and counts nothing before the first', () => {
    const cards = [aCard('2026-01-11', '3650'), aCard('2026-01-21', '7300')];
    expect(budgetedOverhead(cards, '2026-01-01', '2026-01-31', 'EUR').toString()).toBe('320.00');
    expect(budgetedOverhead([], '2026-01-01', '2026-01-31', 'EUR').toString()).toBe('0.00');
  });
});
