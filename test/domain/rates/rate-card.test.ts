import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { hourWithMargin } from '../../../src/domain/rates/hourly-rate.js';
import { overheadPools, rateCard, workingHour } from '../../../src/domain/rates/rate-card.js';
import type { RateWorkings } from '../../../src/domain/rates/rate-workings.js';

const d = (figure: string | number) => new Decimal(figure);
const eur = (amount: string) => Money.parse(amount, 'EUR');
const odalys = {
  name: 'Odalys Fenwright',
  pay: eur('22000'),
  onCosts: [],
  year: { weeks: d(46), hoursAWeek: d(34), productiveShare: d('0.62') },
  perHourByMode: {},
};
const workings: RateWorkings = {
  currency: 'EUR',
  people: [odalys],
  overhead: [
    { name: 'Rent', amount: eur('4200'), pool: 'Workroom', base: 'productive-hours' },
    { name: 'Light', amount: eur('1020'), pool: 'Workroom', base: 'productive-hours' },
  ],
};

describe('a rate card', () => {
  // Constructed case WS-1: pay 22,000; overhead 5,220; 46 weeks × 34 h × 62 %.
  it('lays an hour out as 28.07 = 22.69 + 5.38, sold at 31.19 with 10 % profit on the price', () => {
    const card = rateCard('2026-03-02', workings);
    expect(String(card.perHour)).toBe('22.69');
    expect(card.overhead).toEqual([{ name: 'Workroom', base: 'productive-hours', rate: d('5.38') }]);
    const hour = workingHour(card);
    expect([hour.labour, hour.overhead, hour.total].map(String)).toEqual(['22.69', '5.38', '28.07']);
    expect(hourWithMargin(hour.total.toDecimal(), d('0.1')).toFixed(2)).toBe('31.19');
  });

  it('spreads overhead over the hours of everybody whose hours are known', () => {
    const helper = { ...odalys, name: 'Corvin', plainPerHour: eur('15') };
    const outworker = {
      name: 'Outworker',
      pay: eur('0'),
      onCosts: [],
      plainPerHour: eur('18'),
      perHourByMode: {},
    };
    const three = { ...workings, people: [odalys, helper, outworker] };
    expect(overheadPools(three)[0]?.budgetedBase.toFixed(2)).toBe('1939.36');
    expect(String(rateCard('2026-03-02', three, 'Corvin').perHour)).toBe('15.00');
    expect(rateCard('2026-03-02', three).person).toBe('Odalys Fenwright');
  });

  it('has a share for a pool that goes by labour cost', () => {
    const [pool] = overheadPools({
      ...workings,
      overhead: [{ name: 'Books', amount: eur('2750'), pool: 'Desk', base: 'labour-cost' }],
    });
    // 2,750 over 22.69 × 969.68 h = 22,002.04 of labour.
    expect(pool?.rate.toFixed()).toBe('0.125');
  });

  it.each([
    ['machine-hours', {}],
    ['material-cost', {}],
  ] as const)('refuses a pool by %s without its base', (base, more) => {
    const item = { name: 'Needles', amount: eur('100'), pool: 'Machine', base };
    expect(() => overheadPools({ ...workings, ...more, overhead: [item] })).toThrow(Invalid);
  });

  it('refuses one pool with two bases, a cost below nought and a card of nobody', () => {
    const [rent] = workings.overhead as [RateWorkings['overhead'][number]];
    expect(() => overheadPools({ ...workings, overhead: [rent, { ...rent, base: 'labour-cost' }] })).toThrow(
      'two bases',
    );
    expect(() => overheadPools({ ...workings, overhead: [{ ...rent, amount: eur('-1') }] })).toThrow(
      'below 0',
    );
    expect(() => rateCard('2026-03-02', { ...workings, people: [] })).toThrow('at least one person');
  });

  it('costs an hour on the machine by its wear, upkeep and power', () => {
    const machine = {
      price: eur('1200'),
      residualValue: eur('200'),
      lifeHours: d(4000),
      upkeepPerHour: d('0.30'),
      powerPerHour: d('0.05'),
    };
    expect(String(rateCard('2026-03-02', { ...workings, machine }).machinePerHour)).toBe('0.60');
    expect(String(rateCard('2026-03-02', workings).machinePerHour)).toBe('0.00');
  });
});
