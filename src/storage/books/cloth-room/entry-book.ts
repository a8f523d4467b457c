import { In } from 'typeorm';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { type EntryKind, type EntryPart, GIVES_BACK, type StockEntry } from '../../../domain/stock/entry.js';
import type { Taken } from '../../../domain/stock/stock-lot.js';
import { inParts } from '../../in-parts.js';
import { StockEntryRow } from '../../rows/cloth-room/stock-entry.row.js';
import { StockPartRow } from '../../rows/cloth-room/stock-part.row.js';
import type { Reading, Writing } from '../../session.js';
import { studioBook } from '../studio-book.js';

/** What an entry says beside its parts. */
export type EntryWords = Pick<StockEntry, 'kind' | 'materialId' | 'on' | 'reason'> & {
  readonly commissionId?: string | undefined;
  readonly garmentId?: string | undefined;
  readonly garmentName?: string;
  readonly lineId?: string | undefined;
  readonly purchaseId?: string | undefined;
  readonly of?: string | undefined;
};

/** What happened to stock. Entries are added and read; nothing here changes one. */
export const entryBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<StockEntry> {
    const [entry] = await entriesWhere(reading, { id });
    if (!entry) throw new NotFound('movement');
    return entry;
  },

  /** Newest first. */
  async ofMaterial(reading: Reading, materialId: string, limit = 100): Promise<StockEntry[]> {
    return entriesWhere(reading, { material_id: materialId }, limit);
  },

  /** Newest first. */
  async ofCommission(reading: Reading, commissionId: string): Promise<StockEntry[]> {
    return entriesWhere(reading, { commission_id: commissionId });
  },

  /** What happened for several commissions, without the parts of each movement, newest first. */
  async ofCommissions(reading: Reading, commissionIds: readonly string[]): Promise<StockEntry[]> {
    if (commissionIds.length === 0) return [];
    const rows = await reading.manager.find(StockEntryRow, {
      where: { commission_id: In([...commissionIds]) },
      order: { id: 'DESC' },
    });
    const { currency } = (await studioBook.the(reading)).identity;
    return rows.map((row) => entryOf(row, [], currency));
  },

  /** What went back to the supplier of some lots; below nought, as it went out. */
  async sentBack(reading: Reading, lotIds: readonly string[]): Promise<EntryPart[]> {
    if (lotIds.length === 0) return [];
    const { currency } = (await studioBook.the(reading)).identity;
    const rows = await reading.manager
      .createQueryBuilder(StockPartRow, 'part')
      .innerJoin(StockEntryRow, 'entry', 'entry.id = part.entry_id')
      .where('part.lot_id IN (:...lotIds)', { lotIds: [...lotIds] })
      .andWhere("entry.kind = 'sent-back'")
      .getMany();
    return rows.map((row) => partOf(row, currency));
  },

  /** What some garments had of a material, and gave back. */
  async ofGarments(
    reading: Reading,
    materialId: string,
    garmentIds: readonly string[],
  ): Promise<StockEntry[]> {
    return garmentIds.length === 0
      ? []
      : entriesWhere(reading, { material_id: materialId, garment_id: In([...garmentIds]) });
  },

  async ofPurchase(reading: Reading, purchaseId: string): Promise<StockEntry[]> {
    return entriesWhere(reading, { purchase_id: purchaseId });
  },

  /** Everything that names one of these entries, newest first. */
  async about(reading: Reading, ids: readonly string[]): Promise<StockEntry[]> {
    return ids.length === 0 ? [] : entriesWhere(reading, { of_id: In([...ids]) });
  },

  /** What of an issue is still out, in the order it was taken. */
  async stillOut(reading: Reading, issue: StockEntry): Promise<Taken[]> {
    const out = issue.parts.map(({ lotId, quantity, cost }) => ({
      lot: lotId,
      quantity: quantity.negated(),
      cost: cost.negated(),
    }));
    const back = (await this.about(reading, [issue.id])).filter(({ kind }) => GIVES_BACK.includes(kind));
    const reversals = await this.about(
      reading,
      back.map(({ id }) => id),
    );
    const reversed = new Set(reversals.map(({ of }) => of));
    return back.filter(({ id }) => !reversed.has(id)).reduce<Taken[]>(lessWhatCameBack, out);
  },

  /** Keeps an entry for good. */
  async add(
    writing: Writing,
    words: EntryWords,
    parts: StockEntry['parts'],
    /** Where it is not Σ parts: an offcut comes off an issue by its share of the width. */
    quantity?: Decimal,
  ): Promise<string> {
    const id = writing.newId();
    const total = quantity ?? parts.reduce((sum, part) => sum.plus(part.quantity), new Decimal(0));
    await writing.insertForGood(StockEntryRow, {
      id,
      kind: words.kind,
      material_id: words.materialId,
      on_day: words.on,
      written_at: writing.at,
      who: writing.visit.who.name,
      quantity: total.toFixed(),
      cost: parts.reduce((sum, { cost }) => sum + cost.minor, 0),
      commission_id: words.commissionId ?? null,
      garment_id: words.garmentId ?? null,
      garment_name: words.garmentName ?? '',
      line_id: words.lineId ?? null,
      purchase_id: words.purchaseId ?? null,
      of_id: words.of ?? null,
      reason: words.reason,
    });
    for (const part of parts)
      await writing.insertForGood(StockPartRow, {
        id: writing.newId(),
        entry_id: id,
        lot_id: part.lotId,
        quantity: part.quantity.toFixed(),
        cost: part.cost.minor,
      });
    return id;
  },
};

/** What went back to a lot comes off what is out of it, at the cost it went back at. */
const lessWhatCameBack = (out: readonly Taken[], back: StockEntry): Taken[] =>
  out
    .map((piece) => {
      const own = back.parts.filter(({ lotId, quantity }) => lotId === piece.lot && quantity.gt(0));
      return {
        lot: piece.lot,
        quantity: own.reduce((left, { quantity }) => left.minus(quantity), piece.quantity),
        cost: own.reduce((left, { cost }) => left.minus(cost), piece.cost),
      };
    })
    .filter(({ quantity }) => quantity.gt(0));

const entriesWhere = async (reading: Reading, where: object, take?: number): Promise<StockEntry[]> => {
  const rows = await reading.manager.find(StockEntryRow, {
    where,
    order: { id: 'DESC' },
    ...(take === undefined ? {} : { take }),
  });
  if (rows.length === 0) return [];
  const { currency } = (await studioBook.the(reading)).identity;
  const parts = new Map<string, StockPartRow[]>();
  for (const some of inParts(rows, 500)) {
    const ids = some.map(({ id }) => id);
    const found = await reading.manager.find(StockPartRow, {
      where: { entry_id: In(ids) },
      order: { id: 'ASC' },
    });
    for (const part of found) parts.set(part.entry_id, [...(parts.get(part.entry_id) ?? []), part]);
  }
  return rows.map((row) => entryOf(row, parts.get(row.id) ?? [], currency));
};

const entryOf = (row: StockEntryRow, parts: readonly StockPartRow[], currency: string): StockEntry => ({
  id: row.id,
  kind: row.kind as EntryKind,
  materialId: row.material_id,
  on: row.on_day,
  at: row.written_at,
  who: row.who,
  quantity: new Decimal(row.quantity),
  cost: Money.ofMinor(row.cost, currency),
  commissionId: row.commission_id ?? undefined,
  garmentId: row.garment_id ?? undefined,
  garmentName: row.garment_name,
  lineId: row.line_id ?? undefined,
  purchaseId: row.purchase_id ?? undefined,
  of: row.of_id ?? undefined,
  reason: row.reason,
  parts: parts.map((part) => partOf(part, currency)),
});

const partOf = (part: StockPartRow, currency: string): EntryPart => ({
  lotId: part.lot_id,
  quantity: new Decimal(part.quantity),
  cost: Money.ofMinor(part.cost, currency),
});
