import { In } from 'typeorm';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import type { StockEntry } from '../../../domain/stock/entry.js';
import type { Promised } from '../../../domain/stock/promised.js';
import { ReservationRow } from '../../rows/cloth-room/reservation.row.js';
import type { Reading, Writing } from '../../session.js';
import { entryBook } from './entry-book.js';

export type PromiseWords = Omit<Promised, 'id' | 'version'>;

/** The book of what is promised to which garment. */
export const reservationBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Promised> {
    const row = await reading.manager.findOneBy(ReservationRow, { id });
    if (!row) throw new NotFound('reservation');
    return promiseOf(row);
  },

  async ofMaterial(reading: Reading, materialId: string): Promise<Promised[]> {
    const rows = await reading.manager.find(ReservationRow, {
      where: { material_id: materialId },
      order: { id: 'ASC' },
    });
    return rows.map(promiseOf);
  },

  async ofCommissions(reading: Reading, commissionIds: readonly string[]): Promise<Promised[]> {
    if (commissionIds.length === 0) return [];
    const rows = await reading.manager.find(ReservationRow, {
      where: { commission_id: In([...commissionIds]) },
      order: { id: 'ASC' },
    });
    return rows.map(promiseOf);
  },

  /** What garments with promises of a material have had of it, and given back. */
  async movementsOf(reading: Reading, materialId: string): Promise<StockEntry[]> {
    const promised = await reading.manager
      .createQueryBuilder(ReservationRow, 'reservation')
      .select('reservation.garment_id', 'garment')
      .distinct(true)
      .where('reservation.material_id = :materialId', { materialId })
      .getRawMany<{ garment: string }>();
    return entryBook.ofGarments(
      reading,
      materialId,
      promised.map(({ garment }) => garment),
    );
  },

  async add(writing: Writing, words: PromiseWords): Promise<string> {
    const id = writing.newId();
    await writing.insert(ReservationRow, {
      id,
      material_id: words.materialId,
      lot_id: words.lotId ?? null,
      commission_id: words.commissionId,
      garment_id: words.garmentId,
      line_id: words.lineId ?? null,
      quantity: words.quantity.toFixed(),
      note: words.note,
    });
    return id;
  },

  async remove(writing: Writing, id: string): Promise<void> {
    await writing.remove(ReservationRow, id);
  },
};

const promiseOf = (row: ReservationRow): Promised => ({
  id: row.id,
  version: row.version,
  materialId: row.material_id,
  lotId: row.lot_id ?? undefined,
  commissionId: row.commission_id,
  garmentId: row.garment_id,
  lineId: row.line_id ?? undefined,
  quantity: new Decimal(row.quantity),
  note: row.note,
});
