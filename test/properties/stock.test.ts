import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../src/domain/kernel/decimal.js';
import { Money } from '../../src/domain/kernel/money.js';
import { landedCost } from '../../src/domain/stock/landed-cost.js';
import { type Movement, STOCK_METHODS, type StockMethod } from '../../src/domain/stock/movements.js';
import { workOutStock } from '../../src/domain/stock/work-out-stock.js';

type Draw = {
  readonly kind: 0 | 1 | 2;
  readonly quantity: number;
  readonly cost: number;
  readonly pick: number;
};

const draws = fc.array(
  fc.record({
    kind: fc.constantFrom(0, 1, 2) as fc.Arbitrary<0 | 1 | 2>,
    quantity: fc.integer({ min: 1, max: 500 }),
    cost: fc.integer({ min: 0, max: 99_999 }),
    pick: fc.nat(20),
  }),
  { minLength: 1, maxLength: 25 },
);

/** Turns draws into movements that can happen: never more out than is there, never more back than went out. */
const possible = (method: StockMethod, from: readonly Draw[]): Movement[] => {
  const movements: Movement[] = [];
  const lots: { name: string; left: number }[] = [];
  const out: { at: number; lot: string; left: number }[] = [];
  for (const { kind, quantity, cost, pick } of from) {
    const at = movements.length;
    const amount = (tenths: number) => new Decimal(tenths).div(10);
    if (kind === 0 || lots.length === 0) {
      lots.push({ name: `lot ${at}`, left: quantity });
      const unitCost = new Decimal(cost).div(1000);
      movements.push({ kind: 'buy', lot: `lot ${at}`, quantity: amount(quantity), unitCost });
    } else if (kind === 1) {
      const lot = lots[pick % lots.length];
      if (!lot || lot.left === 0) continue;
      // Taking no more than one lot holds is possible under every method
      const taken = Math.min(quantity, lot.left);
      lot.left -= taken;
      out.push({ at, lot: lot.name, left: taken });
      movements.push({ kind: pick % 3 ? 'issue' : 'waste', lot: lot.name, quantity: amount(taken) });
    } else {
      const issue = out[pick % Math.max(1, out.length)];
      if (!issue || issue.left === 0) continue;
      const back = Math.min(quantity, issue.left);
      issue.left -= back;
      const lot = lots.find((each) => each.name === issue.lot);
      if (lot && method === 'lot') lot.left += back;
      movements.push({ kind: 'return', of: issue.at, quantity: amount(back) });
    }
  }
  return movements;
};

describe('stock', () => {
  it.each(STOCK_METHODS)(
    '%s: what was bought is what was issued and what is left, to the minor unit',
    (method) => {
      fc.assert(
        fc.property(draws, (from) => {
          const movements = possible(method, from);
          const bought = movements.flatMap((each) =>
            each.kind === 'buy' ? [Money.rounded(each.quantity.times(each.unitCost), 'EUR')] : [],
          );
          const stock = workOutStock('EUR', method, movements);
          expect(stock.issuedCost.plus(stock.value).toString()).toBe(Money.sum(bought, 'EUR').toString());
        }),
      );
    },
  );

  it.each(STOCK_METHODS)('%s: no lot is ever below nought, and an empty shelf is worth nothing', (method) => {
    fc.assert(
      fc.property(draws, (from) => {
        const stock = workOutStock('EUR', method, possible(method, from));
        for (const lot of stock.lots) {
          expect(lot.quantity.gte(0)).toBe(true);
          expect(lot.value.isNegative()).toBe(false);
          if (lot.quantity.isZero()) expect(lot.value.isZero()).toBe(true);
        }
        expect(stock.averageUnitCost === null).toBe(stock.onHand.isZero());
      }),
    );
  });

  it.each(STOCK_METHODS)('%s: a return in full undoes its issue', (method) => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 0, max: 99_999 }), (tenths, cost) => {
        const quantity = new Decimal(tenths).div(10);
        const bought: Movement = {
          kind: 'buy',
          lot: 'a',
          quantity: quantity.plus(1),
          unitCost: new Decimal(cost).div(1000),
        };
        const before = workOutStock('EUR', method, [bought]);
        const after = workOutStock('EUR', method, [
          bought,
          { kind: 'issue', lot: 'a', quantity },
          { kind: 'return', of: 1, quantity },
        ]);
        expect([after.value.toString(), after.issuedCost.toString()]).toEqual([
          before.value.toString(),
          '0.00',
        ]);
      }),
    );
  });

  it('shares freight so that landed totals are goods and freight, exactly', () => {
    const lines = fc.array(fc.tuple(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 1, max: 99_999 })), {
      minLength: 1,
      maxLength: 12,
    });
    fc.assert(
      fc.property(
        lines,
        fc.nat(1_000_000),
        fc.constantFrom('value' as const, 'quantity' as const),
        (drawn, freight, by) => {
          const shared = Money.ofMinor(freight, 'EUR');
          const landed = landedCost(
            'EUR',
            drawn.map(([q, p]) => ({ quantity: new Decimal(q).div(10), unitPrice: new Decimal(p).div(100) })),
            shared,
            by,
          );
          expect(
            Money.sum(
              landed.map((each) => each.share),
              'EUR',
            ).equals(shared),
          ).toBe(true);
          for (const each of landed) expect(each.goods.plus(each.share).equals(each.landedTotal)).toBe(true);
        },
      ),
    );
  });
});
