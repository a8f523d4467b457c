import { type Garment, type PlannedGarment } from '../../domain/commissions/garment.js';
import { NotFound } from '../../domain/kernel/errors.js';
import { Money } from '../../domain/kernel/money.js';
import type { Make } from '../../domain/making/mode.js';
import { GarmentRow } from '../rows/commissions/garment.row.js';
import type { Reading, Writing } from '../session.js';
import { estimateBook } from './estimate-book.js';
import { planBook } from './plan-book.js';
import { studioBook } from './studio-book.js';

export type GarmentWords = Omit<Garment, 'id' | 'version' | 'place'>;

/** The book of garments. */
export const garmentBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Garment> {
    const row = await reading.manager.findOneBy(GarmentRow, { id });
    if (!row) throw new NotFound('garment');
    return garmentOf(row, await currencyOf(reading));
  },

  /** A commission's garments in their order. */
  async ofCommission(reading: Reading, commissionId: string): Promise<Garment[]> {
    const rows = await reading.manager.find(GarmentRow, {
      where: { commission_id: commissionId },
      order: { place: 'ASC', id: 'ASC' },
    });
    const currency = rows.length > 0 ? await currencyOf(reading) : '';
    return rows.map((row) => garmentOf(row, currency));
  },

  /** Earlier garments of a type, newest first, whose plan can be copied. */
  async ofType(reading: Reading, typeId: string, limit = 20): Promise<Garment[]> {
    const rows = await reading.manager.find(GarmentRow, {
      where: { type_id: typeId },
      order: { id: 'DESC' },
      take: limit,
    });
    const currency = rows.length > 0 ? await currencyOf(reading) : '';
    return rows.map((row) => garmentOf(row, currency));
  },

  /** A garment with everything its price is worked out from. */
  async planned(reading: Reading, id: string): Promise<PlannedGarment> {
    const garment = await this.one(reading, id);
    return {
      garment,
      plan: await planBook.of(reading, id),
      materials: await estimateBook.materialsOf(reading, id),
      expenses: await estimateBook.expensesOf(reading, id),
    };
  },

  async add(writing: Writing, words: GarmentWords): Promise<Garment> {
    const others = await this.ofCommission(writing, words.commissionId);
    const place = Math.max(0, ...others.map((garment) => garment.place)) + 1;
    const id = writing.newId();
    const row = await writing.insert(GarmentRow, { id, place, ...columnsOf(words) });
    return garmentOf(row, await currencyOf(writing));
  },

  /** @throws Stale when it has changed since `seen` */
  async correct(writing: Writing, garment: Garment, seen?: number): Promise<Garment> {
    const { id, version: _, place, ...words } = garment;
    const row = await writing.update(GarmentRow, id, { place, ...columnsOf(words) }, seen);
    return garmentOf(row, await currencyOf(writing));
  },

  /** Takes a garment out, with its plan and lines. */
  async remove(writing: Writing, id: string, seen?: number): Promise<Garment> {
    const planned = await this.planned(writing, id);
    for (const operation of planned.plan) await planBook.takeOut(writing, operation.id);
    for (const line of planned.materials) await estimateBook.removeMaterial(writing, line.id);
    for (const line of planned.expenses) await estimateBook.removeExpense(writing, line.id);
    await writing.remove(GarmentRow, id, seen);
    return planned.garment;
  },
};

const currencyOf = async (reading: Reading): Promise<string> =>
  (await studioBook.the(reading)).identity.currency;

const garmentOf = (row: GarmentRow, currency: string): Garment => ({
  id: row.id,
  version: row.version,
  commissionId: row.commission_id,
  place: row.place,
  name: row.name,
  typeId: row.type_id,
  make: row.make as Make,
  wearerId: row.wearer_id,
  dueOn: row.due_on ?? undefined,
  notes: row.notes,
  ownPrice: row.own_price === null ? undefined : Money.ofMinor(row.own_price, currency),
});

const columnsOf = (words: GarmentWords): Omit<GarmentRow, 'id' | 'version' | 'place'> => ({
  commission_id: words.commissionId,
  name: words.name,
  type_id: words.typeId,
  make: words.make,
  wearer_id: words.wearerId,
  due_on: words.dueOn ?? null,
  notes: words.notes,
  own_price: words.ownPrice?.minor ?? null,
});
