import fc from 'fast-check';
import { expect, it } from 'vitest';
import { CAUSES } from '../../../src/domain/costing/causes.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { workOutPrice } from '../../../src/domain/pricing/work-out-price.js';
import { actualWork, extraAtRates } from '../../../src/domain/reckoning/actual-work.js';
import {
  freezeReckoning,
  frozenMoney,
  frozenTogether,
  readReckoning,
} from '../../../src/domain/reckoning/frozen-reckoning.js';
import { quotedWork } from '../../../src/domain/reckoning/quoted-work.js';
import { reckon } from '../../../src/domain/reckoning/reckon.js';
import { addsUp, d, eur, hour, piece, pockets } from './a-reckoning.js';

it('the reckoning adds up to the minor unit for any history of any garment, and for the commission', () => {
  const minutes = fc.integer({ min: 0, max: 3000 });
  const cents = fc.integer({ min: 0, max: 900_000 });
  const aPiece = fc.record({
    name: fc.constantFrom('lapels', 'sleeves', 'pressing', 'forgotten hem'),
    minutes: fc.integer({ min: 1, max: 900 }),
    mode: fc.constantFrom<'hand' | 'machine' | 'press'>('hand', 'machine', 'press'),
    cause: fc.option(fc.constantFrom(...CAUSES), { nil: undefined }),
    on: fc.constantFrom('2026-03-02', '2026-09-01'),
  });
  const aGarment = fc.record({
    plan: fc.array(
      fc.record({
        name: fc.constantFrom('lapels', 'sleeves'),
        mode: fc.constantFrom('hand', 'machine'),
        minutes,
      }),
      { maxLength: 5 },
    ),
    more: fc.integer({ min: 0, max: 40 }),
    mending: fc.integer({ min: 0, max: 20 }),
    worked: fc.array(aPiece, { maxLength: 12 }),
    cloth: fc.record({ planned: cents, used: cents, quantity: fc.integer({ min: 1, max: 900 }) }),
    paid: cents,
    extra: fc.record({ minutes: fc.integer({ min: 1, max: 600 }), price: cents, given: fc.boolean() }),
    price: cents,
    asked: cents,
  });
  const pools = [
    { name: 'workroom', base: 'productive-hours' as const, rate: d('5.38') },
    { name: 'finishing', base: 'labour-cost' as const, rate: d('0.125') },
    { name: 'machines', base: 'machine-hours' as const, rate: d('1.07') },
    { name: 'cloth', base: 'material-cost' as const, rate: d('0.033') },
  ];
  const spring = hour('22.69', pools, '0.61');
  const autumn = { ...hour('23.17', pools, '0.66'), from: '2026-06-01' };
  fc.assert(
    fc.property(fc.array(aGarment, { minLength: 1, maxLength: 3 }), (garments) => {
      const reckonings = garments.map(({ plan, more, mending, worked, cloth, paid, extra, price, asked }) => {
        const { costSheet } = workOutPrice({
          currency: 'EUR',
          labour: { perHour: d('22.69') },
          machinePerHour: d('0.61'),
          overhead: pools,
          operations: plan.map((line) => ({
            ...line,
            minutes: d(line.minutes),
            pricedMinutes: d(line.minutes)
              .times(100 + more)
              .div(100),
          })),
          materials: [{ name: 'tweed', quantity: d('5.20'), unitCost: d(cloth.planned).div(520) }],
          expenses: [{ name: 'courier', amount: Money.ofMinor(1200, 'EUR') }],
          mendingShare: d(mending).div(100),
        });
        const pieces = worked.map(({ name, minutes: took, ...rest }) => piece(name, took, rest));
        const reckoning = reckon({
          quoted: quotedWork(costSheet, Money.ofMinor(price, 'EUR')),
          actual: actualWork(
            pieces,
            [
              {
                name: 'tweed',
                on: '2026-03-02',
                quantity: d(cloth.quantity).div(100),
                cost: Money.ofMinor(cloth.used, 'EUR'),
              },
            ],
            [{ name: 'courier', amount: Money.ofMinor(paid, 'EUR') }],
            (on) => (on < '2026-06-01' ? spring : autumn),
            'EUR',
          ),
          price: Money.ofMinor(asked, 'EUR'),
          extras: [
            extraAtRates(
              {
                name: 'extra 1',
                kind: extra.given ? 'compliments' : 'charged',
                price: Money.ofMinor(extra.price, 'EUR'),
                work: pockets(extra.minutes, 'machine'),
              },
              spring,
            ),
          ],
          worked: pieces,
        });
        expect(reckoning.quotedProfit.minor).toBe(price - costSheet.cost.minor);
        expect(reckoning.actualProfit.minor).toBe(asked - reckoning.column.cost.minor);
        addsUp(reckoning);
        const took = reckoning.byMode.reduce((sum, { actual }) => sum.plus(actual), d(0));
        expect(took.toNumber()).toBe(worked.reduce((sum, one) => sum + one.minutes, 0));
        return reckoning;
      });
      // As they are kept: frozen, written down, read again, and added up for the commission.
      const kept = reckonings.map((one) => {
        const frozen = freezeReckoning(one, {
          materialsAtReplacement: eur('0.00'),
          bastingMinutes: 0,
          takenAsPlanned: [],
        });
        const read = readReckoning(JSON.stringify({ lesson: 1, reckoning: frozen }));
        expect(read).toEqual(frozen);
        return frozen;
      });
      const together = frozenTogether(kept);
      const money = (text: string) => frozenMoney(together, text);
      expect(money(together.actualProfit).minor).toBe(
        reckonings.reduce((sum, { actualProfit }) => sum + actualProfit.minor, 0),
      );
      addsUp({
        quotedProfit: money(together.quotedProfit),
        actualProfit: money(together.actualProfit),
        bridge: together.bridge.map(({ step, amount }) => ({ step, amount: money(amount) })),
      });
    }),
    { numRuns: 100 },
  );
});
