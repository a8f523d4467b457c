import { In } from 'typeorm';
import type { Correction, CorrectionWords, Direction } from '../../../domain/fitting/correction.js';
import type { Fitting, FittingKind, FittingState } from '../../../domain/fitting/fitting.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { inParts } from '../../in-parts.js';
import { CorrectionRow } from '../../rows/fitting/correction.row.js';
import { FittingRow } from '../../rows/fitting/fitting.row.js';
import { FittingGarmentRow } from '../../rows/fitting/fitting-garment.row.js';
import type { Reading, Writing } from '../../session.js';

/** What is said of a fitting; the instant of the change is the act's. */
export type FittingWords = Omit<Fitting, 'id' | 'version' | 'changedAt'>;

const MOST_AT_ONCE = 500;

/** The book of fittings and of what they showed. */
export const fittingBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Fitting> {
    const [fitting] = await whole(reading, await reading.manager.findBy(FittingRow, { id }));
    if (!fitting) throw new NotFound('fitting');
    return fitting;
  },

  /** Of a commission, by day and time. */
  async ofCommission(reading: Reading, commissionId: string): Promise<Fitting[]> {
    return whole(
      reading,
      await reading.manager.find(FittingRow, { where: { commission_id: commissionId }, order: BY_TIME }),
    );
  },

  /** Of a garment, by day and time. */
  async ofGarment(reading: Reading, garmentId: string): Promise<Fitting[]> {
    const places = await reading.manager.findBy(FittingGarmentRow, { garment_id: garmentId });
    const ids = places.map(({ fitting_id }) => fitting_id);
    if (ids.length === 0) return [];
    return whole(reading, await reading.manager.find(FittingRow, { where: { id: In(ids) }, order: BY_TIME }));
  },

  /** From one day to another, both included, by day and time. */
  async between(reading: Reading, from: CalendarDate, to: CalendarDate, most = 1000): Promise<Fitting[]> {
    const rows = await reading.manager
      .createQueryBuilder(FittingRow, 'fitting')
      .where('fitting.on_day >= :from AND fitting.on_day <= :to', { from, to })
      .orderBy('fitting.on_day')
      .addOrderBy('fitting.at_time')
      .addOrderBy('fitting.id')
      .take(most)
      .getMany();
    return whole(reading, rows);
  },

  /** The corrections of a fitting, in their order. */
  async corrections(reading: Reading, fittingId: string): Promise<Correction[]> {
    const rows = await reading.manager.find(CorrectionRow, {
      where: { fitting_id: fittingId },
      order: { line: 'ASC', id: 'ASC' },
    });
    return rows.map(correctionOf);
  },

  /** The corrections of the last fitting that was held with this garment; none before the first. */
  async lastCorrections(
    reading: Reading,
    garmentId: string,
  ): Promise<{ readonly fitting: Fitting; readonly corrections: readonly Correction[] } | undefined> {
    const fitting = (await this.ofGarment(reading, garmentId)).filter(({ state }) => state === 'held').at(-1);
    if (!fitting) return undefined;
    const corrections = await this.corrections(reading, fitting.id);
    return { fitting, corrections: corrections.filter((one) => one.garmentId === garmentId) };
  },

  async add(writing: Writing, words: FittingWords): Promise<Fitting> {
    const id = writing.newId();
    const row = await writing.insert(FittingRow, { id, changed_at: writing.at, ...columnsOf(words) });
    for (const garmentId of words.garmentIds)
      await writing.insert(FittingGarmentRow, {
        id: writing.newId(),
        fitting_id: id,
        garment_id: garmentId,
      });
    return fittingOf(row, words.garmentIds);
  },

  /** @throws Stale when it has changed since `seen` */
  async correct(writing: Writing, id: string, words: FittingWords, seen?: number): Promise<Fitting> {
    const row = await writing.update(FittingRow, id, { changed_at: writing.at, ...columnsOf(words) }, seen);
    const places = await writing.manager.findBy(FittingGarmentRow, { fitting_id: id });
    for (const place of places)
      if (!words.garmentIds.includes(place.garment_id)) await writing.remove(FittingGarmentRow, place.id);
    for (const garmentId of words.garmentIds)
      if (!places.some((place) => place.garment_id === garmentId))
        await writing.insert(FittingGarmentRow, {
          id: writing.newId(),
          fitting_id: id,
          garment_id: garmentId,
        });
    return fittingOf(row, words.garmentIds);
  },

  /** Puts these corrections in the place of those there are. */
  async keepCorrections(
    writing: Writing,
    fittingId: string,
    corrections: readonly CorrectionWords[],
  ): Promise<void> {
    for (const { id } of await this.corrections(writing, fittingId)) await writing.remove(CorrectionRow, id);
    for (const [index, one] of corrections.entries())
      await writing.insert(CorrectionRow, {
        id: writing.newId(),
        fitting_id: fittingId,
        garment_id: one.garmentId,
        line: index + 1,
        place: one.place,
        direction: one.direction,
        amount: one.amount,
        mm: one.mm ?? null,
      });
  },
};

const BY_TIME = { on_day: 'ASC', at_time: 'ASC', id: 'ASC' } as const;

/** Rows with the garments of each. */
const whole = async (reading: Reading, rows: readonly FittingRow[]): Promise<Fitting[]> => {
  const garments = new Map<string, string[]>(rows.map(({ id }) => [id, []]));
  const ids = [...garments.keys()];
  for (const some of inParts(ids, MOST_AT_ONCE)) {
    const places = await reading.manager.find(FittingGarmentRow, {
      where: { fitting_id: In(some) },
      order: { id: 'ASC' },
    });
    for (const place of places) garments.get(place.fitting_id)?.push(place.garment_id);
  }
  return rows.map((row) => fittingOf(row, garments.get(row.id) ?? []));
};

const fittingOf = (row: FittingRow, garmentIds: readonly string[]): Fitting => ({
  id: row.id,
  version: row.version,
  commissionId: row.commission_id,
  garmentIds,
  kind: row.kind as FittingKind,
  on: row.on_day,
  at: row.at_time,
  minutes: row.minutes,
  state: row.state as FittingState,
  present: row.present,
  worn: row.worn,
  guardian: row.guardian,
  notes: row.notes,
  reason: row.reason,
  patternChanged: row.pattern_changed,
  patternWords: row.pattern_words,
  nextId: row.next_id ?? undefined,
  changedAt: row.changed_at,
});

const columnsOf = (words: FittingWords): Omit<FittingRow, 'id' | 'version' | 'changed_at'> => ({
  commission_id: words.commissionId,
  kind: words.kind,
  on_day: words.on,
  at_time: words.at,
  minutes: words.minutes,
  state: words.state,
  present: words.present,
  worn: words.worn,
  guardian: words.guardian,
  notes: words.notes,
  reason: words.reason,
  pattern_changed: words.patternChanged,
  pattern_words: words.patternWords,
  next_id: words.nextId ?? null,
});

const correctionOf = (row: CorrectionRow): Correction => ({
  id: row.id,
  fittingId: row.fitting_id,
  garmentId: row.garment_id,
  place: row.place,
  direction: row.direction as Direction,
  amount: row.amount,
  mm: row.mm ?? undefined,
});
