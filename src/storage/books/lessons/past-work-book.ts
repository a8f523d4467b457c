import type { PastGarment } from '../../../domain/lessons/past-garment.js';
import {
  type PastByOperation,
  type PastOperation,
  pastWorkText,
  readPastWork,
  teachesByOperation,
} from '../../../domain/lessons/past-work.js';
import { PastWorkRow } from '../../rows/lessons/past-work.row.js';
import { keptIn, type Reading, type Writing } from '../../session.js';
import { pastGarmentBook } from '../past-garment-book.js';

/** The book of operations of past garments. */
export const pastWorkBook = {
  /** Operations by the garment's id; what cannot be read is left out, its total still counts. */
  all(reading: Reading): Promise<ReadonlyMap<string, readonly PastOperation[]>> {
    return keptIn(reading, 'past work', async () => {
      const rows = await reading.manager.find(PastWorkRow, { order: { id: 'ASC' } });
      return new Map(rows.flatMap(({ garment_id, document }) => readable(garment_id, document)));
    });
  },

  /** Past garments of which operations are known, in the order they were written down. */
  garments(reading: Reading): Promise<readonly PastByOperation[]> {
    return keptIn(reading, 'past garments by operation', async () => {
      const work = await this.all(reading);
      if (work.size === 0) return [];
      return (await pastGarmentBook.all(reading)).flatMap((one) => {
        const operations = work.get(one.id);
        return operations ? [{ ...one, operations }] : [];
      });
    });
  },

  /** Garments of a type of which the total is all the lesson can read. */
  async totalsOnly(reading: Reading, typeId: string): Promise<PastGarment[]> {
    const past = await pastGarmentBook.ofType(reading, typeId);
    const work = await this.all(reading);
    return past.filter(({ id }) => !teachesByOperation(work.get(id) ?? []));
  },

  /** A word that changes with what is known by operation; empty where nothing is. */
  async version(reading: Reading): Promise<string> {
    const garments = await this.garments(reading);
    return garments.length === 0
      ? ''
      : `${garments.length} ${garments.at(-1)?.id} ${garments.reduce((sum, { version }) => sum + version, 0)}`;
  },

  async addAll(writing: Writing, work: ReadonlyMap<string, readonly PastOperation[]>): Promise<void> {
    await writing.insertAll(
      PastWorkRow,
      [...work].map(([garment_id, operations]) => ({
        id: writing.newId(),
        garment_id,
        document: pastWorkText(operations),
      })),
    );
  },

  /** Takes the operations of a garment off, before the garment itself. */
  async removeOf(writing: Writing, garmentId: string): Promise<void> {
    const row = await writing.manager.findOneBy(PastWorkRow, { garment_id: garmentId });
    if (row) await writing.remove(PastWorkRow, row.id);
  },
};

const readable = (id: string, document: string): [string, readonly PastOperation[]][] => {
  try {
    return [[id, readPastWork(document)]];
  } catch {
    return [];
  }
};
