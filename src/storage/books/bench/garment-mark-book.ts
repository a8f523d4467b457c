import { In, IsNull } from 'typeorm';
import {
  type GarmentMark,
  type GarmentMarkKind,
  type GarmentStanding,
  garmentStanding,
} from '../../../domain/commissions/garment-mark.js';
import { Conflict, NotFound } from '../../../domain/kernel/errors.js';
import { grouped } from '../../../domain/stock/grouped.js';
import { inParts } from '../../in-parts.js';
import { GarmentMarkRow } from '../../rows/commissions/garment-mark.row.js';
import type { Reading, Writing } from '../../session.js';

export type MarkWords = Omit<GarmentMark, 'id' | 'writtenAt' | 'who' | 'of'>;

/** What happened to garments: cut, handed over, closed. Marks are added and read; nothing here changes one. */
export const garmentMarkBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<GarmentMark> {
    const row = await reading.manager.findOneBy(GarmentMarkRow, { id });
    if (!row) throw new NotFound('mark');
    return markOf(row);
  },

  /** Oldest first, those taken back included. */
  async ofGarment(reading: Reading, garmentId: string): Promise<GarmentMark[]> {
    return marksWhere(reading, { garment_id: garmentId });
  },

  /** Of some garments, oldest first, by garment. */
  async ofGarments(reading: Reading, garmentIds: readonly string[]): Promise<Map<string, GarmentMark[]>> {
    const found = new Map<string, GarmentMark[]>(garmentIds.map((id) => [id, []]));
    for (const some of inParts(garmentIds, 500))
      for (const mark of await marksWhere(reading, { garment_id: In(some) }))
        found.get(mark.garmentId)?.push(mark);
    return found;
  },

  /** Of one operation of a garment, oldest first, those taken back included. */
  async ofOperation(reading: Reading, garmentId: string, operationId: string): Promise<GarmentMark[]> {
    return marksWhere(reading, { garment_id: garmentId, operation_id: operationId });
  },

  async standing(reading: Reading, garmentId: string): Promise<GarmentStanding> {
    return garmentStanding(await marksThatStand(reading, { garment_id: garmentId }));
  },

  /** Where the garments of these commissions stand; a garment without a mark is not among them. */
  async standingsIn(
    reading: Reading,
    commissionIds: readonly string[],
  ): Promise<Map<string, { readonly garmentId: string; readonly standing: GarmentStanding }[]>> {
    if (commissionIds.length === 0) return new Map();
    const marks = await marksThatStand(reading, { commission_id: In([...commissionIds]) });
    const byGarment = grouped(marks, ({ garmentId }) => garmentId);
    const found = [...byGarment].map(([garmentId, own]) => ({
      garmentId,
      commissionId: own[0]?.commissionId ?? '',
      standing: garmentStanding(own),
    }));
    return grouped(found, ({ commissionId }) => commissionId);
  },

  /** @throws Conflict when nothing more may be written to this garment */
  async mustBeOpen(reading: Reading, garmentId: string): Promise<void> {
    const standing = await this.standing(reading, garmentId);
    if (standing === 'closed')
      throw new Conflict('This garment is closed. Open its reckoning again first.', 'garment-closed');
    if (standing === 'cancelled')
      throw new Conflict(
        'This garment was cancelled: nothing more can be written to it.',
        'garment-cancelled',
      );
  },

  async add(writing: Writing, words: MarkWords): Promise<GarmentMark> {
    return keep(writing, words, null);
  },

  /** @throws Conflict when it was taken back before */
  async takeBack(writing: Writing, id: string, words: string): Promise<GarmentMark> {
    const mark = await this.one(writing, id);
    const others = await marksWhere(writing, { garment_id: mark.garmentId });
    if (mark.of || others.some(({ of }) => of === id))
      throw new Conflict('This was taken back already.', 'taken-back-already');
    return keep(writing, { ...mark, words, document: '' }, id);
  },
};

const keep = async (writing: Writing, words: MarkWords, of: string | null): Promise<GarmentMark> =>
  markOf(
    await writing.insertForGood(GarmentMarkRow, {
      id: writing.newId(),
      garment_id: words.garmentId,
      commission_id: words.commissionId,
      kind: words.kind,
      operation_id: words.operationId ?? null,
      on_day: words.on,
      who: writing.visit.who.name,
      words: words.words,
      document: words.document,
      of_id: of,
      written_at: writing.at,
    }),
  );

/**
 * What says where garments stand: neither what was frozen with a mark nor the marks of operations are read. Not asked by kind:
 * SQLite would then go through every garment that was ever cut.
 */
const marksThatStand = async (reading: Reading, where: object) =>
  (
    await reading.manager.find(GarmentMarkRow, {
      select: { id: true, commission_id: true, garment_id: true, kind: true, of_id: true },
      where: { ...where, operation_id: IsNull() },
      order: { id: 'ASC' },
    })
  ).map((row) => ({
    id: row.id,
    kind: row.kind as GarmentMarkKind,
    of: row.of_id ?? undefined,
    garmentId: row.garment_id,
    commissionId: row.commission_id,
  }));

const marksWhere = async (reading: Reading, where: object): Promise<GarmentMark[]> =>
  (await reading.manager.find(GarmentMarkRow, { where, order: { id: 'ASC' } })).map(markOf);

const markOf = (row: GarmentMarkRow): GarmentMark => ({
  id: row.id,
  garmentId: row.garment_id,
  commissionId: row.commission_id,
  kind: row.kind as GarmentMarkKind,
  operationId: row.operation_id ?? undefined,
  on: row.on_day,
  who: row.who,
  words: row.words,
  document: row.document,
  of: row.of_id ?? undefined,
  writtenAt: row.written_at,
});
