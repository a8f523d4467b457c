import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { hourlyRate, hoursOfYear } from '../../../src/domain/rates/hourly-rate.js';
import { machineRate } from '../../../src/domain/rates/machine-rate.js';
import { absorptionOf, predeterminedRate } from '../../../src/domain/rates/overhead-rate.js';
import { rateOn } from '../../../src/domain/rates/rate-on.js';

const d = (number: string | number) => new Decimal(number);
const eur = (amount: string) => Money.parse(amount, 'EUR');

describe('the machine rate', () => {
  const machine = {
    price: eur('1200'),
    residualValue: eur('200'),
    lifeHours: d(4000),
    upkeepPerHour: d('0.30'),
    powerPerHour: d('0.05'),
  };

  it('is wear, upkeep and power', () => {
    expect(machineRate(machine).toFixed()).toBe('0.6');
  });

  it.each([
    ['residualValue', { residualValue: eur('1200.01') }],
    ['lifeHours', { lifeHours: d(0) }],
    ['price', { price: eur('-1') }],
    ['upkeepPerHour', { upkeepPerHour: d(-1) }],
    ['powerPerHour', { powerPerHour: d(-1) }],
  ])('refuses a %s that cannot be meant', (field, wrong) => {
    expect.assertions(1);
    try {
      machineRate({ ...machine, ...wrong });
    } catch (trouble) {
      expect(trouble instanceof Invalid && trouble.fields[0]?.field).toBe(field);
    }
  });
});

describe('the hourly rate', () => {
  const year = { weeks: d(46), hoursAWeek: d(34), productiveShare: d('0.62') };

  it('adds on-costs to the pay and keeps every item', () => {
    const rate = hourlyRate({
      currency: 'EUR',
      pay: eur('22000'),
      onCosts: [{ name: 'pension', amount: eur('2000') }],
      overhead: [
        { name: 'rent', amount: eur('4800') },
        { name: 'insurance', amount: eur('420') },
      ],
      year,
    });
    expect(`${rate.labourAYear} ${rate.overheadAYear}`).toBe('24000.00 5220.00');
    expect(`${rate.shown.labour} ${rate.shown.overhead} ${rate.shown.total}`).toBe('24.75 5.38 30.13');
    expect(rate.parts.overhead.map((item) => item.name)).toEqual(['rent', 'insurance']);
  });

  it('names every part of a year that cannot be', () => {
    expect.assertions(1);
    try {
      hoursOfYear({ weeks: d(54), hoursAWeek: d(0), productiveShare: d(62) });
    } catch (trouble) {
      const fields = trouble instanceof Invalid ? trouble.fields.map((each) => each.field) : [];
      expect(fields).toEqual(['weeks', 'hoursAWeek', 'productiveShare']);
    }
  });

  it('refuses pay or costs below nought', () => {
    expect(() => hourlyRate({ currency: 'EUR', pay: eur('-1'), year })).toThrow(Invalid);
    const overhead = [{ name: 'rent', amount: eur('-1') }];
    expect(() => hourlyRate({ currency: 'EUR', pay: eur('1'), overhead, year })).toThrow('rent');
  });
});

describe('overhead', () => {
  it('says the rate that would have been right', () => {
    const absorption = absorptionOf(d('5'), d(100), eur('620'));
    expect(absorption.trueRate?.toFixed()).toBe('6.2');
    expect(absorptionOf(d('5'), d(0), eur('620')).trueRate).toBeNull();
    expect(absorptionOf(d('5'), d(100), eur('500')).verdict).toBe('even');
  });

  it('needs a base to go by', () => {
    expect(() => predeterminedRate(eur('100'), d(0))).toThrow(Invalid);
  });
});

describe('a dated rate', () => {
  const rates = [
    { from: '2026-06-01', perHour: '25' },
    { from: '2026-01-01', perHour: '22' },
    { from: '2026-06-01', perHour: '26' },
  ];

  it.each([
    ['2025-12-31', undefined],
    ['2026-01-01', '22'],
    ['2026-05-31', '22'],
    ['2026-06-01', '26'],
    ['2027-01-01', '26'],
  ])('on %s is %s', (day, perHour) => {
    expect(rateOn(rates, day)?.perHour).toBe(perHour);
  });
});
