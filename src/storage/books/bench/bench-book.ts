import { Between, In, IsNull, Not } from 'typeorm';
import type { BenchEntry, EntryWay } from '../../../domain/bench/bench-entry.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Conflict, NotFound } from '../../../domain/kernel/errors.js';
import { inParts } from '../../in-parts.js';
import { BenchEntryRow } from '../../rows/bench/bench-entry.row.js';
import type { Reading, Writing } from '../../session.js';
import { columnsOfWorkedOn, workedOnOf } from './worked-on-columns.js';

export type EntryWords = Omit<BenchEntry, 'id' | 'writtenAt' | 'of'>;

/** The minutes that were worked. Entries are added and read; nothing here changes one. */
export const benchBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<BenchEntry> {
    const row = await reading.manager.findOneBy(BenchEntryRow, { id });
    if (!row) throw new NotFound('bench entry');
    return entryOf(row);
  },

  /** Of a garment, oldest first, reversals included. */
  async ofGarment(reading: Reading, garmentId: string): Promise<BenchEntry[]> {
    return entriesWhere(reading, { garment_id: garmentId });
  },

  /** Of one line of a garment's plan, with what went into whole stages and unplanned work, reversals included. */
  async ofOperation(reading: Reading, garmentId: string, operationId: string): Promise<BenchEntry[]> {
    return entriesWhere(reading, [
      { garment_id: garmentId, operation_id: operationId },
      { garment_id: garmentId, operation_id: IsNull() },
    ]);
  },

  /** Of some garments, oldest first, reversals included. */
  async ofGarments(reading: Reading, garmentIds: readonly string[]): Promise<BenchEntry[]> {
    const found: BenchEntry[] = [];
    for (const some of inParts(garmentIds, 500))
      found.push(...(await entriesWhere(reading, { garment_id: In(some) })));
    return found;
  },

  /** Of a commission, oldest first, reversals included. */
  async ofCommission(reading: Reading, commissionId: string): Promise<BenchEntry[]> {
    return entriesWhere(reading, { commission_id: commissionId });
  },

  /** Of one person in a span of days, oldest first, reversals included. */
  async ofPerson(
    reading: Reading,
    personId: string,
    from: CalendarDate,
    to: CalendarDate,
  ): Promise<BenchEntry[]> {
    return entriesWhere(reading, { person_id: personId, on_day: Between(from, to) });
  },

  /** Of one person on one day, oldest first. */
  async ofDay(reading: Reading, personId: string, on: CalendarDate): Promise<BenchEntry[]> {
    return entriesWhere(reading, { person_id: personId, on_day: on });
  },

  /** Newest first, a page at a time by key. */
  async newest(
    reading: Reading,
    limit: number,
    after?: string,
    where: { garmentId?: string; personId?: string } = {},
  ): Promise<BenchEntry[]> {
    const query = reading.manager
      .createQueryBuilder(BenchEntryRow, 'entry')
      .orderBy('entry.id', 'DESC')
      .take(limit);
    if (after) query.andWhere('entry.id < :after', { after });
    if (where.garmentId) query.andWhere('entry.garment_id = :garmentId', where);
    if (where.personId) query.andWhere('entry.person_id = :personId', where);
    return (await query.getMany()).map(entryOf);
  },

  /** The reversals of these entries. */
  async reversalsOf(reading: Reading, ids: readonly string[]): Promise<BenchEntry[]> {
    return ids.length === 0 ? [] : entriesWhere(reading, { of_id: In([...ids]) });
  },

  /** Entries of a span, in garments and without. */
  between(reading: Reading, from: CalendarDate, to: CalendarDate): Promise<BenchEntry[]> {
    return entriesWhere(reading, { on_day: Between(from, to) });
  },

  /** Entries of a span in garments, of which only the plan knows the mode. */
  withoutMode(reading: Reading, from: CalendarDate, to: CalendarDate): Promise<BenchEntry[]> {
    return entriesWhere(reading, { on_day: Between(from, to), mode: '', garment_id: Not(IsNull()) });
  },

  /** Keeps minutes for good. */
  async add(writing: Writing, words: EntryWords): Promise<BenchEntry> {
    return entryOf(
      await writing.insertForGood(BenchEntryRow, {
        id: writing.newId(),
        person_id: words.personId,
        person_name: words.personName,
        minutes: words.minutes,
        on_day: words.on,
        begun_at: words.begunAt ?? null,
        ended_at: words.endedAt ?? null,
        way: words.way,
        of_id: null,
        note: words.note,
        written_at: writing.at,
        ...columnsOfWorkedOn(words),
      }),
    );
  },

  /**
   * Takes an entry back by one of the same minutes below nought.
   *
   * @throws Conflict when it was reversed before, or is a reversal itself
   */
  async reverse(writing: Writing, id: string, note: string): Promise<BenchEntry> {
    const entry = await this.one(writing, id);
    if (entry.of)
      throw new Conflict('This entry takes another back; write the minutes anew instead.', 'is-reversal');
    if ((await this.reversalsOf(writing, [id])).length > 0)
      throw new Conflict('This entry was taken back already.', 'reversed-already');
    return entryOf(
      await writing.insertForGood(BenchEntryRow, {
        id: writing.newId(),
        person_id: entry.personId,
        person_name: entry.personName,
        minutes: -entry.minutes,
        on_day: entry.on,
        begun_at: null,
        ended_at: null,
        way: 'correction',
        of_id: id,
        note,
        written_at: writing.at,
        ...columnsOfWorkedOn(entry),
      }),
    );
  },
};

const entriesWhere = async (reading: Reading, where: object): Promise<BenchEntry[]> =>
  (await reading.manager.find(BenchEntryRow, { where, order: { id: 'ASC' } })).map(entryOf);

const entryOf = (row: BenchEntryRow): BenchEntry => ({
  id: row.id,
  personId: row.person_id,
  personName: row.person_name,
  minutes: row.minutes,
  on: row.on_day,
  begunAt: row.begun_at ?? undefined,
  endedAt: row.ended_at ?? undefined,
  way: row.way as EntryWay,
  of: row.of_id ?? undefined,
  note: row.note,
  writtenAt: row.written_at,
  ...workedOnOf(row),
});
