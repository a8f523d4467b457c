import type { Decimal } from '../../../domain/kernel/decimal.js';
import { Conflict, Invalid } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { type EntryPart, MAY_COME_BACK, type StockEntry } from '../../../domain/stock/entry.js';
import { isInterchangeable, type Lot } from '../../../domain/stock/lot.js';
import type { Material } from '../../../domain/stock/material.js';
import { atAverage, notEnough, partOfIssue, putOnShelf, takeOffShelf } from '../../../domain/stock/shelf.js';
import type { StockLot, Taken } from '../../../domain/stock/stock-lot.js';
import { LotRow } from '../../rows/cloth-room/lot.row.js';
import type { Reading, Writing } from '../../session.js';
import { type EntryWords, entryBook } from './entry-book.js';
import { type LotWords, lotBook } from './lot-book.js';
import { materialBook } from './material-book.js';

type Said = Omit<EntryWords, 'materialId'>;

/**
 * The one place where stock moves: each movement adds an entry and brings its lots to what is left after it, in one act.
 * What the lots are worth together is what came in less what went out, always.
 */
export const stockBook = {
  /** A new lot comes in at its cost. */
  async bringIn(writing: Writing, words: LotWords, said: Said): Promise<{ lotId: string; entryId: string }> {
    const material = await materialBook.one(writing, words.materialId);
    await writing.seal(`material/${material.id}`);
    const lotId = await lotBook.begin(writing, words);
    const part = { lotId, quantity: words.received, cost: words.landed };
    const entryId = await entryBook.add(writing, { ...said, materialId: material.id }, [part]);
    await settle(writing, material, [part]);
    return { lotId, entryId };
  },

  /** Off the shelf, by the material's issue cost method; a piece that is ours apart, or a client's, is named. */
  async takeOut(
    writing: Writing,
    material: Material,
    quantity: Decimal,
    lotId: string | undefined,
    said: Said,
  ): Promise<string> {
    const lots = await lotBook.ofMaterial(writing, material.id);
    const named = lotId === undefined ? undefined : lots.find(({ id }) => id === lotId);
    if (lotId !== undefined && !named) throw Invalid.field('lot', 'This piece is of another material.');
    const goesBack = said.kind === 'sent-back' && material.method === 'first-in-first-out';
    const apart = named !== undefined && (goesBack || !isInterchangeable(named));
    const from = apart ? [named] : lots.filter(isInterchangeable);
    const { moved } = takeOffShelf(
      from.map(onShelf),
      apart ? 'lot' : material.method,
      quantity,
      currencyOf(from, lots),
      { lot: lotId, unit: material.unit },
    );
    const parts = moved.map(outward);
    const id = await entryBook.add(writing, { ...said, materialId: material.id }, parts);
    await settle(writing, material, parts);
    return id;
  },

  /** Part of an issue, or of waste, comes back at the cost it left with. */
  async giveBack(writing: Writing, issue: StockEntry, quantity: Decimal, said: Said): Promise<string> {
    const material = await materialBook.one(writing, issue.materialId);
    const back = await this.comingBack(writing, issue, quantity, material);
    const parts = back.map(inward);
    const id = await entryBook.add(writing, { ...ofIssue(issue), ...said }, parts);
    await settle(writing, material, parts);
    return id;
  },

  /**
   * A piece left over from an issue becomes a lot of its own, worth its share of the issue.
   *
   * @param quantity how much of the issue it is; `words.received` is its own length
   */
  async keepOffcut(
    writing: Writing,
    issue: StockEntry,
    quantity: Decimal,
    words: Omit<LotWords, 'landed'>,
    said: Said,
  ): Promise<string> {
    const material = await materialBook.one(writing, issue.materialId);
    const back = await this.comingBack(writing, issue, quantity, material);
    const [first] = back;
    if (!first) throw notEnough(quantity, quantity.times(0), material.unit);
    const landed = Money.sum(
      back.map(({ cost }) => cost),
      first.cost.currency,
    );
    const lotId = await lotBook.begin(writing, { ...words, landed });
    // Back to its lot and out of it again, so that what is still out of the issue can be told lot by lot.
    const own = { lotId, quantity: words.received, cost: landed };
    const parts = [...back.flatMap((piece) => [inward(piece), outward(piece)]), own];
    await entryBook.add(writing, { ...ofIssue(issue), ...said }, parts, quantity);
    await settle(writing, material, [own]);
    return lotId;
  },

  /** The book follows the tape: what is missing goes out at its cost, what is more comes in at none. */
  async measureAgain(writing: Writing, lot: Lot, measured: Decimal, said: Said): Promise<string> {
    const material = await materialBook.one(writing, lot.materialId);
    const more = measured.minus(lot.left);
    if (more.isZero())
      throw Invalid.field('measured', 'The book says the same already: nothing needs to be put down.');
    if (more.lt(0)) {
      const lots = await lotBook.ofMaterial(writing, material.id);
      const apart = !isInterchangeable(lot) || material.method !== 'weighted-average';
      const from = apart ? [lot] : lots.filter(isInterchangeable);
      const { moved } = takeOffShelf(
        from.map(onShelf),
        apart ? 'lot' : material.method,
        more.negated(),
        lot.value.currency,
        { lot: lot.id, unit: material.unit },
      );
      return this.enter(writing, material, moved.map(outward), said);
    }
    const part = { lotId: lot.id, quantity: more, cost: Money.zero(lot.value.currency) };
    return this.enter(writing, material, [part], said);
  },

  /**
   * Takes back an entry. What went out comes back as far as it is still out; what came in goes out again, if nothing of the
   * material has moved since.
   *
   * @throws Conflict when it cannot simply be reversed
   */
  async reverse(writing: Writing, entry: StockEntry, said: Said): Promise<string> {
    if (MAY_COME_BACK.includes(entry.kind)) {
      const out = await entryBook.stillOut(writing, entry);
      const quantity = out.reduce((sum, piece) => sum.plus(piece.quantity), entry.quantity.times(0));
      if (quantity.lte(0)) throw new Conflict('All of this has come back already.', 'nothing-left');
      return this.giveBack(writing, entry, quantity, said);
    }
    const [last] = await entryBook.ofMaterial(writing, entry.materialId, 1);
    if (entry.kind === 'reversal' || last?.id !== entry.id)
      throw new Conflict(
        'Only the last movement of a material can be reversed, and a reversal cannot. Put down what is true now: measured again, or sent back.',
        'moved-since',
      );
    const material = await materialBook.one(writing, entry.materialId);
    const parts = entry.parts.map(({ lotId, quantity, cost }) => ({
      lotId,
      quantity: quantity.negated(),
      cost: cost.negated(),
    }));
    return this.enter(writing, material, parts, { ...ofIssue(entry), ...said }, entry.quantity.negated());
  },

  async enter(
    writing: Writing,
    material: Material,
    parts: readonly EntryPart[],
    said: Said,
    quantity?: Decimal,
  ): Promise<string> {
    const id = await entryBook.add(writing, { ...said, materialId: material.id }, parts, quantity);
    await settle(writing, material, parts);
    return id;
  },

  async comingBack(reading: Reading, issue: StockEntry, quantity: Decimal, material: Material) {
    if (!MAY_COME_BACK.includes(issue.kind))
      throw new Conflict('Only what was issued or wasted can come back.', 'not-issued');
    return partOfIssue(await entryBook.stillOut(reading, issue), quantity, material.unit);
  },
};

const onShelf = (lot: Lot): StockLot => ({ lot: lot.id, quantity: lot.left, value: lot.value });
const outward = ({ lot, quantity, cost }: Taken): EntryPart => ({
  lotId: lot,
  quantity: quantity.negated(),
  cost: cost.negated(),
});
const inward = ({ lot, quantity, cost }: Taken): EntryPart => ({ lotId: lot, quantity, cost });
const currencyOf = (from: readonly Lot[], all: readonly Lot[]): string =>
  (from[0] ?? all[0])?.value.currency ?? 'EUR';

/** What an entry about another has in common with it. */
const ofIssue = (issue: StockEntry) => ({
  materialId: issue.materialId,
  commissionId: issue.commissionId,
  garmentId: issue.garmentId,
  garmentName: issue.garmentName,
  lineId: issue.lineId,
  of: issue.id,
});

/** Brings the lots to what is left after these parts; lots that flow together stay at their average. */
const settle = async (writing: Writing, material: Material, parts: readonly EntryPart[]): Promise<void> => {
  const lots = await lotBook.ofMaterial(writing, material.id);
  const moved = putOnShelf(
    lots.map(onShelf),
    parts.map((part) => ({ ...part, lot: part.lotId })),
  );
  const pooled = new Set(
    material.method === 'weighted-average' ? lots.filter(isInterchangeable).map(({ id }) => id) : [],
  );
  const inPool = moved.filter(({ lot }) => pooled.has(lot));
  const [any] = inPool;
  const pool = any ? atAverage(inPool, any.value.currency) : [];
  for (const after of [...moved.filter(({ lot }) => !pooled.has(lot)), ...pool]) {
    const before = lots.find(({ id }) => id === after.lot);
    if (!before || (before.left.eq(after.quantity) && before.value.equals(after.value))) continue;
    if (after.quantity.lt(0)) throw notEnough(before.left.minus(after.quantity), before.left, material.unit);
    await writing.update(LotRow, after.lot, {
      left_over: after.quantity.toFixed(),
      value: after.value.minor,
    });
  }
};
