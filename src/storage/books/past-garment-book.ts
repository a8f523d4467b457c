import type { NotebookTotal } from '../../domain/estimating/garment-hours.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { NotFound } from '../../domain/kernel/errors.js';
import { minutesOfHours } from '../../domain/kernel/minutes.js';
import type { PastGarment } from '../../domain/lessons/past-garment.js';
import { OwnGuessRow } from '../rows/lessons/own-guess.row.js';
import { PastGarmentRow } from '../rows/lessons/past-garment.row.js';
import { keptIn, type Reading, type Writing } from '../session.js';

export type PastGarmentWords = Omit<PastGarment, 'id' | 'version'>;
export type OwnGuess = { readonly hours: Decimal; readonly version: number };

/** The book of garments made before the program was there, and of what the maker guesses a type takes. */
export const pastGarmentBook = {
  /** Every one, in the order they were written down. */
  async all(reading: Reading): Promise<PastGarment[]> {
    return keptIn(reading, 'past garments', async () =>
      (await reading.manager.find(PastGarmentRow, { order: { id: 'ASC' } })).map(garmentOf),
    );
  },

  async ofType(reading: Reading, typeId: string): Promise<PastGarment[]> {
    return keptIn(reading, `past garments ${typeId}`, async () => {
      const rows = await reading.manager.find(PastGarmentRow, {
        where: { type_id: typeId },
        order: { id: 'ASC' },
      });
      return rows.map(garmentOf);
    });
  },

  /** Totals of a type as the estimate takes them, in minutes. */
  async totalsOf(reading: Reading, typeId: string): Promise<NotebookTotal[]> {
    return (await this.ofType(reading, typeId)).map(({ hours, plannedHours }) => ({
      minutes: minutesOfHours(hours).toNumber(),
      ...(plannedHours && { plannedMinutes: minutesOfHours(plannedHours).toNumber() }),
    }));
  },

  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<PastGarment> {
    const row = await reading.manager.findOneBy(PastGarmentRow, { id });
    if (!row) throw new NotFound('past garment');
    return garmentOf(row);
  },

  async add(writing: Writing, words: PastGarmentWords): Promise<PastGarment> {
    return garmentOf(await writing.insert(PastGarmentRow, { id: writing.newId(), ...columnsOf(words) }));
  },

  /** Many at once, in few statements. @returns their ids, in order */
  async addAll(writing: Writing, garments: readonly PastGarmentWords[]): Promise<string[]> {
    const rows = garments.map((words) => ({ id: writing.newId(), ...columnsOf(words) }));
    await writing.insertAll(PastGarmentRow, rows);
    return rows.map(({ id }) => id);
  },

  async correct(writing: Writing, id: string, words: PastGarmentWords, seen?: number): Promise<PastGarment> {
    return garmentOf(await writing.update(PastGarmentRow, id, columnsOf(words), seen));
  },

  async remove(writing: Writing, id: string, seen?: number): Promise<void> {
    await writing.remove(PastGarmentRow, id, seen);
  },

  /** The maker's own guess of every type that has one, by the type's id. */
  async guesses(reading: Reading): Promise<ReadonlyMap<string, OwnGuess>> {
    const rows = await reading.manager.find(OwnGuessRow);
    return new Map(rows.map(({ id, hours, version }) => [id, { hours: new Decimal(hours), version }]));
  },

  /** The maker's own guess of one type, in hours. */
  async guessOf(reading: Reading, typeId: string): Promise<OwnGuess | undefined> {
    const row = await reading.manager.findOneBy(OwnGuessRow, { id: typeId });
    return row ? { hours: new Decimal(row.hours), version: row.version } : undefined;
  },

  /** Says, changes or takes back a guess. */
  async guess(writing: Writing, typeId: string, hours: Decimal | undefined, seen?: number): Promise<void> {
    const before = await this.guessOf(writing, typeId);
    if (!hours) {
      if (before) await writing.remove(OwnGuessRow, typeId, seen);
    } else if (before) await writing.update(OwnGuessRow, typeId, { hours: hours.toFixed() }, seen);
    else await writing.insert(OwnGuessRow, { id: typeId, hours: hours.toFixed() });
  },
};

const garmentOf = (row: PastGarmentRow): PastGarment => ({
  id: row.id,
  version: row.version,
  typeId: row.type_id,
  hours: new Decimal(row.hours),
  plannedHours: row.planned_hours === null ? undefined : new Decimal(row.planned_hours),
  finishedOn: row.finished_on ?? undefined,
  note: row.note,
});

const columnsOf = (words: PastGarmentWords): Omit<PastGarmentRow, 'id' | 'version'> => ({
  type_id: words.typeId,
  hours: words.hours.toFixed(),
  planned_hours: words.plannedHours?.toFixed() ?? null,
  finished_on: words.finishedOn ?? null,
  note: words.note,
});
