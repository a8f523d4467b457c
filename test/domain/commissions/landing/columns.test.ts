import { describe, expect, it } from 'vitest';
import { costSoFar, costToCome, hourOnFrom } from '../../../../src/domain/commissions/landing/columns.js';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { rateCard } from '../../../../src/domain/rates/rate-card.js';
import { anHour, dearerInApril, euro, minutesOn } from './a-garment.js';

describe('what a garment has cost so far', () => {
  // By hand. March: 90 min by hand at 20 = 30.00, 30 min by machine = 10.00 and 1.50 of machine; 2 h × 6 = 12.00; a tenth of
  // 40.00. April: 50 min at 24 = 20.00; 5.00 of overhead; 8.00 of cloth came back, so −0.80.
  it('takes each minute at the rate of its day, its mode, and overhead at that day’s card', () => {
    const column = costSoFar(
      [
        minutesOn('lapels', 60),
        minutesOn('lapels', 30),
        minutesOn('sleeves', 30, { mode: 'machine' }),
        minutesOn('sleeves', 50, { on: '2026-04-02' }),
      ],
      [
        { on: '2026-03-01', cost: euro('40.00') },
        { on: '2026-04-03', cost: euro('-8.00') },
      ],
      euro('5.00'),
      dearerInApril,
    );
    expect(column.labour.toString()).toBe('60.00');
    expect(column.machine.toString()).toBe('1.50');
    expect(column.overheadByPool.get('Workroom')?.toString()).toBe('17.00');
    expect(column.overheadByPool.get('Cloth room')?.toString()).toBe('3.20');
    expect(column.overheadOfTime.toString()).toBe('17.00');
    expect(column.materials.toString()).toBe('32.00');
    expect(column.cost.toString()).toBe('118.70');
    expect(column.operations.map(({ minutes }) => minutes.toString())).toEqual(['90', '30', '50']);
  });

  it('is nothing before the first minute, and expenses alone where there are only those', () => {
    expect(costSoFar([], [], euro('0.00'), () => anHour).cost.isZero()).toBe(true);
    expect(costSoFar([], [], euro('7.00'), () => anHour).cost.toString()).toBe('7.00');
  });

  it('what is to come is taken at one day’s rates', () => {
    const time = [{ name: 'sleeves', mode: 'machine', minutes: new Decimal(30) }];
    const column = costToCome(time, euro('20.00'), euro('4.00'), anHour);
    // 10.00 + 1.50 + 3.00 + 2.00 + 20.00 + 4.00
    expect(column.cost.toString()).toBe('40.50');
  });
});

describe('whose hour counts', () => {
  const person = (name: string, hour: string) => ({
    name,
    pay: euro('0.00'),
    onCosts: [],
    plainPerHour: euro(hour),
    perHourByMode: {},
  });
  const card = (from: string, own: string, helper: string) =>
    rateCard(from, {
      currency: 'EUR',
      people: [person('Odalys Fenwright', own), person('Ilse Marrow', helper)],
      overhead: [],
    });
  const hourOn = hourOnFrom([card('2026-04-01', '24.00', '15.00'), card('2026-01-01', '20.00', '14.00')]);

  it('the card’s of that day, by name; the first person’s for a name it does not know', () => {
    expect(hourOn('2026-03-31', 'Ilse Marrow').perHour.toString()).toBe('14.00');
    expect(hourOn('2026-04-01', 'ilse marrow').perHour.toString()).toBe('15.00');
    expect(hourOn('2026-04-01', 'Somebody else').perHour.toString()).toBe('24.00');
    expect(hourOn('2026-04-01').perHour.toString()).toBe('24.00');
    expect(hourOn('2025-12-24', 'Ilse Marrow').perHour.toString()).toBe('14.00');
  });
});
