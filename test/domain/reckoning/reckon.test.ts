import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WorkedMinutes } from '../../../src/domain/bench/worked.js';
import type { ExtraWork } from '../../../src/domain/commissions/extra.js';
import type { Hour } from '../../../src/domain/commissions/landing/columns.js';
import { CAUSES } from '../../../src/domain/costing/causes.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { Operation } from '../../../src/domain/making/operation.js';
import { workOutPrice } from '../../../src/domain/pricing/work-out-price.js';
import { actualWork, extraAtRates } from '../../../src/domain/reckoning/actual-work.js';
import { quotedWork } from '../../../src/domain/reckoning/quoted-work.js';
import { bridgesTogether, type Reckoning, reckon } from '../../../src/domain/reckoning/reckon.js';

const eur = (amount: string): Money => Money.parse(amount, 'EUR');
const d = (value: number | string): Decimal => new Decimal(value);

const hour = (perHour: string, pools: Hour['overhead'] = [], machine = '0'): Hour => ({
  from: '2026-01-01',
  perHour: eur(perHour),
  perHourByMode: {},
  machinePerHour: eur(machine),
  overhead: pools,
});

const piece = (name: string, minutes: number, more: Partial<WorkedMinutes> = {}): WorkedMinutes => ({
  entryId: 'e',
  personId: 'p',
  personName: 'Odalys Fenwright',
  on: '2026-03-02',
  operationId: name,
  kind: name,
  name,
  mode: 'hand',
  cause: undefined,
  extraId: undefined,
  minutes,
  ...more,
});

const pockets = (minutes: number, mode: 'hand' | 'machine' = 'hand'): ExtraWork => ({
  operations: [
    {
      sign: 1,
      line: {
        id: 'x',
        kind: 'bellows pockets',
        name: 'bellows pockets',
        stage: 'make',
        mode,
        modeShares: [],
        basting: false,
        driver: 'once',
        quantity: d(1),
        fixedMinutes: d(minutes),
        minutesPerUnit: d(0),
        needsMinutes: false,
        fromStartingValues: false,
        shownToClient: true,
        clientWording: '',
      } satisfies Operation,
    },
  ],
  materials: [],
  expenses: [],
});

const addsUp = ({
  quotedProfit,
  bridge,
  actualProfit,
}: Pick<Reckoning, 'quotedProfit' | 'bridge' | 'actualProfit'>) =>
  expect(quotedProfit.minor + bridge.reduce((sum, { amount }) => sum + amount.minor, 0)).toBe(
    actualProfit.minor,
  );

const step = (reckoning: Reckoning, name: string): string =>
  reckoning.bridge
    .find((one) => one.step === name)
    ?.amount.toDecimal()
    .toFixed(2) ?? '';

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
    expect(reckoning.operations[0]).toMatchObject({ name: 'mending', mode: 'hand' });
    addsUp(reckoning);
  });

  it('adds up to the minor unit for any history of any garment, and for the commission', () => {
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
        const reckonings = garments.map(
          ({ plan, more, mending, worked, cloth, paid, extra, price, asked }) => {
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
          },
        );
        addsUp(bridgesTogether(reckonings, 'EUR'));
      }),
      { numRuns: 100 },
    );
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
