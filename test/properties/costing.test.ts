import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AgreedExtra, type JobWork, variancesOf } from '../../src/domain/costing/variances.js';
import { Decimal } from '../../src/domain/kernel/decimal.js';
import { Money } from '../../src/domain/kernel/money.js';
import type { PriceInput } from '../../src/domain/pricing/price-terms.js';
import { makeWithinBudget } from '../../src/domain/pricing/within-budget.js';
import { workOutPrice } from '../../src/domain/pricing/work-out-price.js';

const cents = (least: number, most: number) =>
  fc.integer({ min: least, max: most }).map((minor) => new Decimal(minor).div(100));
const name = fc.constantFrom('lapels', 'sleeves', 'hem', 'tweed', 'thread');
const amount = fc.option(
  fc.integer({ min: 0, max: 99_999 }).map((minor) => Money.ofMinor(minor, 'EUR')),
  { nil: undefined, freq: 4 },
);
const lines = <T>(line: fc.Arbitrary<T>) => fc.array(line, { maxLength: 5 });

const aWork = (least: number): fc.Arbitrary<JobWork> => {
  const minutes = fc.integer({ min: least, max: 900 }).map((whole) => new Decimal(whole));
  const mode = fc.constantFrom('hand', 'press');
  const timed = fc.record({ name, mode, minutes, perHour: cents(0, 9_999), amount });
  const quantity = cents(least, 9_999);
  const rate = fc.option(cents(0, 9_999), { nil: undefined, freq: 4 });
  return fc.record({
    operations: lines(timed),
    machine: lines(timed),
    materials: lines(fc.record({ name, quantity, unitCost: rate, amount })),
    overhead: lines(fc.record({ name, baseQuantity: quantity, rate, amount })),
    expenses: lines(fc.record({ name, amount: fc.nat(9_999).map((minor) => Money.ofMinor(minor, 'EUR')) })),
  });
};
const aPrice = fc.nat(999_999).map((minor) => Money.ofMinor(minor, 'EUR'));
const priced = fc.tuple(aWork(0), aPrice).map(([work, price]) => ({ ...work, price }));
const extra: fc.Arbitrary<AgreedExtra> = fc
  .tuple(aWork(-500), aPrice, fc.constantFrom('charged' as const, 'compliments' as const))
  .map(([work, price, kind]) => ({ ...work, price, kind }));

describe('planned against actual', () => {
  it('quoted profit and all variances make the actual profit, to the minor unit', () => {
    fc.assert(
      fc.property(priced, priced, fc.array(extra, { maxLength: 4 }), (planned, actual, extras) => {
        const all = variancesOf('EUR', planned, actual, extras);
        expect(all.plannedProfit.plus(all.sum).toString()).toBe(all.actualProfit.toString());
      }),
      { numRuns: 300 },
    );
  });

  it('finds nothing where nothing departed from the plan', () => {
    fc.assert(
      fc.property(priced, (planned) => {
        const { variances } = variancesOf('EUR', planned, planned);
        expect(variances.filter((each) => !each.amount.isZero())).toEqual([]);
      }),
    );
  });
});

const aGarment: fc.Arbitrary<PriceInput> = fc
  .record({
    perHour: cents(500, 9_999),
    overhead: cents(0, 2_000),
    minutes: fc.array(fc.integer({ min: 1, max: 2_000 }), { minLength: 1, maxLength: 8 }),
    stretch: fc.integer({ min: 100, max: 160 }),
    cloth: cents(0, 99_999),
    margin: fc.integer({ min: 0, max: 60 }),
    rush: fc.integer({ min: 0, max: 50 }),
    rushOn: fc.constantFrom('labour' as const, 'price' as const),
    roundTo: fc.constantFrom(1, 50, 500),
    pricesInclude: fc.constantFrom('none' as const, 'tax' as const),
    mending: fc.integer({ min: 0, max: 10 }),
  })
  .map((drawn) => ({
    currency: 'EUR',
    labour: { perHour: drawn.perHour },
    machinePerHour: new Decimal(3),
    overhead: [
      { name: 'workroom', base: 'productive-hours' as const, rate: drawn.overhead },
      { name: 'desk', base: 'labour-cost' as const, rate: new Decimal('0.125') },
    ],
    operations: drawn.minutes.map((minutes, index) => ({
      name: `operation ${index}`,
      mode: index % 2 ? 'machine' : 'hand',
      minutes: new Decimal(minutes),
      pricedMinutes: new Decimal(minutes).times(drawn.stretch).div(100),
    })),
    materials: [{ name: 'cloth', quantity: new Decimal('3.2'), unitCost: drawn.cloth, handling: true }],
    mendingShare: new Decimal(drawn.mending).div(100),
    pricing: {
      margin: new Decimal(drawn.margin).div(100),
      handlingShare: new Decimal('0.15'),
      rushShare: new Decimal(drawn.rush).div(100),
      rushOn: drawn.rushOn,
      roundTo: Money.ofMinor(drawn.roundTo, 'EUR'),
    },
    tax: { category: 'S' as const, rate: new Decimal(21) },
    pricesInclude: drawn.pricesInclude,
  }));

describe('a price', () => {
  it('has sections that add up to its cost, steps to its net, and net and tax to its gross', () => {
    fc.assert(
      fc.property(aGarment, (input) => {
        const { costSheet: sheet, price } = workOutPrice(input);
        const sections = [sheet.materials, sheet.labour, sheet.machine, sheet.overhead, sheet.expenses];
        const cost = Money.sum([...sections, sheet.mending.money, sheet.keptBack.money], 'EUR');
        expect(cost.toString()).toBe(sheet.cost.toString());
        const steps = Money.sum(
          price.steps.map((step) => step.amount),
          'EUR',
        );
        expect(steps.toString()).toBe(price.net.toString());
        expect(price.net.plus(price.tax).toString()).toBe(price.gross.toString());
        expect(price.net.minus(price.profit).toString()).toBe(sheet.cost.toString());
      }),
    );
  });

  it('costs the same when the priced minutes are given as the plan, mending aside', () => {
    fc.assert(
      fc.property(aGarment, (input) => {
        const plain = { ...input, mendingShare: undefined };
        const operations = (input.operations ?? []).map(({ name, mode, pricedMinutes }) => ({
          name,
          mode,
          minutes: pricedMinutes,
        }));
        const direct = workOutPrice({ ...plain, operations });
        expect(workOutPrice(plain).price.net.toString()).toBe(direct.price.net.toString());
      }),
    );
  });

  it('never passes a budget', () => {
    const budget = fc.integer({ min: 1, max: 500_000 }).map((minor) => Money.ofMinor(minor, 'EUR'));
    fc.assert(
      fc.property(aGarment, budget, fc.constantFrom('net' as const, 'gross' as const), (input, most, is) => {
        const allowed = makeWithinBudget(input, most, is);
        if (allowed.answer) expect(allowed.answer.price[is].compare(most)).toBeLessThanOrEqual(0);
        else expect(allowed.minutes).toBe(0);
      }),
      { numRuns: 40 },
    );
  });
});
