import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Decimal } from '../../src/domain/kernel/decimal.js';
import { Trouble } from '../../src/domain/kernel/errors.js';
import { Money } from '../../src/domain/kernel/money.js';
import type { Lot } from '../../src/domain/stock/lot.js';
import { type Material, NO_LENGTH } from '../../src/domain/stock/material.js';
import { STOCK_METHODS, type StockMethod } from '../../src/domain/stock/movements.js';
import { entryBook } from '../../src/storage/books/cloth-room/entry-book.js';
import { type LotWords, lotBook } from '../../src/storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../src/storage/books/cloth-room/material-book.js';
import { stockBook } from '../../src/storage/books/cloth-room/stock-book.js';
import type { Writing } from '../../src/storage/session.js';
import { openTestStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const KINDS = [
  'buy',
  'buy',
  'stash',
  'issue',
  'issue',
  'waste',
  'return',
  'offcut',
  'measure',
  'reverse',
] as const;
const draws = fc.array(
  fc.record({
    kind: fc.constantFrom(...KINDS),
    quantity: fc.integer({ min: 1, max: 300 }),
    cost: fc.integer({ min: 0, max: 99_999 }),
    pick: fc.nat(30),
  }),
  { minLength: 4, maxLength: 18 },
);
type Draw = { kind: (typeof KINDS)[number]; quantity: number; cost: number; pick: number };

const on = '2026-03-02';
const eur = (minor: number) => Money.ofMinor(minor, 'EUR');
const lotOf = (materialId: string, received: Decimal, landed: Money, origin: Lot['origin']): LotWords => ({
  materialId,
  origin,
  received,
  landed,
  purchaseId: undefined,
  lineId: undefined,
  cameOn: on,
  unitPrice: undefined,
  costUnknown: false,
  width: NO_LENGTH,
  dyeLot: '',
  flaws: '',
  age: 'new',
  believedAge: '',
  provenance: '',
  replacementUnitCost: undefined,
  chargeAt: 'replacement',
  chargeReason: '',
  ownerId: undefined,
  smell: '',
  shrinkTest: '',
  cautions: [],
});

const aMaterial = async (method: StockMethod): Promise<Material> =>
  (
    await studio.unit.write(studio.visit, (writing) =>
      materialBook.add(writing, {
        name: `by ${method}`,
        kind: 'cloth',
        unit: 'm',
        width: NO_LENGTH,
        fibres: '',
        care: '',
        patternRepeat: NO_LENGTH,
        hasNap: false,
        supplierId: undefined,
        place: '',
        method,
        notes: '',
      }),
    )
  ).value;

/** One movement as drawn; those that cannot be are refused by the book and leave nothing behind. */
const move = async (writing: Writing, material: Material, draw: Draw): Promise<void> => {
  const quantity = new Decimal(draw.quantity).div(10);
  const lots = await lotBook.ofMaterial(writing, material.id);
  const entries = (await entryBook.ofMaterial(writing, material.id)).reverse();
  const lot = lots[draw.pick % Math.max(1, lots.length)];
  const entry = entries[draw.pick % Math.max(1, entries.length)];
  const said = { on, reason: 'drawn' };
  if (draw.kind === 'buy' || draw.kind === 'stash') {
    const origin = draw.kind === 'buy' ? 'bought' : 'stash';
    const words = lotOf(material.id, quantity, eur(origin === 'bought' ? draw.cost : 0), origin);
    await stockBook.bringIn(writing, words, { ...said, kind: draw.kind === 'buy' ? 'bought' : 'brought-in' });
  } else if (draw.kind === 'issue' || draw.kind === 'waste') {
    const named = material.method === 'lot' || draw.pick % 3 === 0 ? lot?.id : undefined;
    await stockBook.takeOut(writing, material, quantity, named, { ...said, kind: draw.kind });
  } else if (entry && draw.kind === 'return') {
    await stockBook.giveBack(writing, entry, quantity, { ...said, kind: 'return' });
  } else if (entry && draw.kind === 'offcut') {
    const { landed: _, ...words } = lotOf(material.id, quantity.times(2), eur(0), 'offcut');
    await stockBook.keepOffcut(writing, entry, quantity, words, { ...said, kind: 'offcut' });
  } else if (lot && draw.kind === 'measure') {
    await stockBook.measureAgain(writing, lot, quantity, { ...said, kind: 'measured-again' });
  } else if (entry && draw.kind === 'reverse') {
    await stockBook.reverse(writing, entry, { ...said, kind: 'reversal' });
  }
};

const sum = (amounts: readonly Money[]) => Money.sum(amounts, 'EUR');

it.each(STOCK_METHODS)(
  '%s: whatever happens, what the lots are worth together is what came in less what went out',
  async (method) => {
    let kept = 0;
    await fc.assert(
      fc.asyncProperty(draws, async (sequence) => {
        const material = await aMaterial(method);
        for (const draw of sequence) {
          try {
            await studio.unit.write(studio.visit, (writing) => move(writing, material, draw));
            kept += 1;
          } catch (refused) {
            if (!(refused instanceof Trouble)) throw refused;
          }
          const lots = await lotBook.ofMaterial(studio.read, material.id);
          const entries = await entryBook.ofMaterial(studio.read, material.id, 1000);
          expect(sum(lots.map(({ value }) => value)).minor).toBe(sum(entries.map(({ cost }) => cost)).minor);
          for (const { id, left, value } of lots) {
            const moved = entries.flatMap(({ parts }) => parts).filter(({ lotId }) => lotId === id);
            expect(left.toString()).toBe(
              moved.reduce((total, part) => total.plus(part.quantity), new Decimal(0)).toString(),
            );
            expect(left.gte(0) && !value.isNegative()).toBe(true);
            if (left.isZero()) expect(value.isZero()).toBe(true);
          }
        }
      }),
      { numRuns: 12 },
    );
    expect(kept).toBeGreaterThan(30);
  },
  120_000,
);

it.each(STOCK_METHODS)('%s: everything issued comes back to the same worth', async (method) => {
  const material = await aMaterial(method);
  await studio.unit.write(studio.visit, async (writing) => {
    for (const [tenths, cost] of [
      [33, 1001],
      [47, 2999],
    ] as const)
      await move(writing, material, { kind: 'buy', quantity: tenths, cost, pick: 0 });
    await move(writing, material, { kind: 'issue', quantity: 20, cost: 0, pick: 1 });
    const [issue] = await entryBook.ofMaterial(writing, material.id, 1);
    for (const tenths of [7, 13])
      await stockBook.giveBack(writing, issue!, new Decimal(tenths).div(10), {
        on,
        reason: '',
        kind: 'return',
      });
  });
  const lots = await lotBook.ofMaterial(studio.read, material.id);
  expect(sum(lots.map(({ value }) => value)).toString()).toBe('40.00');
});
