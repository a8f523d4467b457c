import { describe, expect, it } from 'vitest';
import { workOutPrice } from '../../../src/domain/pricing/work-out-price.js';
import { actualWork, extraAtRates } from '../../../src/domain/reckoning/actual-work.js';
import { quotedWork } from '../../../src/domain/reckoning/quoted-work.js';
import { reckon } from '../../../src/domain/reckoning/reckon.js';
import { addsUp, d, eur, hour, piece, pockets, step } from './a-reckoning.js';

describe('the reckoning', () => {
  /** The example of the rulings: efficiency −20, extras +30, price 0, profit 100 → 110. */
  it('tells the example of the rulings', () => {
    const at = hour('20.00');
    const { work, column } = actualWork(
      [piece('make', 660), piece('bellows pockets', 60, { cause: 'client asked' })],
      [],
      [],
      () => at,
      'EUR',
    );
    const reckoning = reckon({
      quoted: {
        operations: [{ name: 'make', mode: 'hand', minutes: d(600), perHour: d(20) }],
        price: eur('300.00'),
      },
      actual: { work, column },
      price: eur('350.00'),
      extras: [
        extraAtRates({ name: 'extra 1', kind: 'charged', price: eur('50.00'), work: pockets(60) }, at),
      ],
      worked: [piece('make', 660), piece('bellows pockets', 60, { cause: 'client asked' })],
    });
    expect(reckoning.quotedProfit).toEqual(eur('100.00'));
    expect(reckoning.actualProfit).toEqual(eur('110.00'));
    expect(step(reckoning, 'labour-efficiency')).toBe('-20.00');
    expect(step(reckoning, 'extras-charged')).toBe('30.00');
    expect(step(reckoning, 'price')).toBe('0.00');
    expect(reckoning.byCause.find(({ cause }) => cause === 'client asked')?.minutes).toBe(60);
    addsUp(reckoning);
  });

  it('meets what mending was planned with own error, and gives back what was kept back', () => {
    const at = hour('24.00');
    const { costSheet, price } = workOutPrice({
      currency: 'EUR',
      labour: { perHour: d(24) },
      operations: [{ name: 'make', mode: 'hand', minutes: d(600), pricedMinutes: d(660) }],
      mendingShare: d('0.05'),
      pricing: { margin: d('0.10') },
    });
    const worked = [piece('make', 610), piece('make', 45, { cause: 'own error' })];
    const reckoning = reckon({
      quoted: quotedWork(costSheet, price.net),
      actual: actualWork(worked, [], [], () => at, 'EUR'),
      price: price.net,
      extras: [],
      worked,
    });
    expect(reckoning.quotedProfit).toEqual(price.profit);
    expect(step(reckoning, 'kept-back')).toBe('24.00');
    expect(step(reckoning, 'own-error')).toBe('-6.00');
    expect(step(reckoning, 'labour-efficiency')).toBe('-4.00');
    expect(reckoning.operations[0]).toMatchObject({ name: 'mending', mode: '' });
    addsUp(reckoning);
  });

  it('says what should have been charged: the quoted margin on what it cost', () => {
    const at = hour('20.00');
    const worked = [piece('make', 900)];
    const reckoning = reckon({
      quoted: {
        operations: [{ name: 'make', mode: 'hand', minutes: d(600), perHour: d(20) }],
        price: eur('250.00'),
      },
      actual: actualWork(worked, [], [], () => at, 'EUR'),
      price: eur('250.00'),
      extras: [],
      worked,
    });
    // 20 % of margin on 300.00 of cost.
    expect(reckoning.shouldHaveCharged).toEqual(eur('375.00'));
    expect(reckoning.actualProfit).toEqual(eur('-50.00'));
    expect(reckoning.earnedPerHour?.toDecimal().toFixed(2)).toBe('16.67');
  });
});
