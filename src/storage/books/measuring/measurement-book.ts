import { In } from 'typeorm';
import { NotFound } from '../../../domain/kernel/errors.js';
import type { LengthNote } from '../../../domain/measuring/length-entry.js';
import type { LengthUnit } from '../../../domain/measuring/length-unit.js';
import type { MeasuredValue, MeasurementSet } from '../../../domain/measuring/measurement-set.js';
import { MeasuredValueRow } from '../../rows/clients/measured-value.row.js';
import { MeasurementSetRow } from '../../rows/clients/measurement-set.row.js';
import type { Reading, Writing } from '../../session.js';

/** A set as it is kept: with who was present for a child, the list it was taken by, and the set it mends. */
export type KeptSet = MeasurementSet & {
  readonly guardian: string;
  readonly garmentType: string;
  readonly insteadOf: string | undefined;
};

/** The book of measurements. Sets are added and read; nothing here changes one. */
export const measurementBook = {
  /** Every set of a client, oldest first; of one day the one kept last comes last. */
  async ofClient(reading: Reading, clientId: string): Promise<KeptSet[]> {
    const sets = await reading.manager.find(MeasurementSetRow, {
      where: { client_id: clientId },
      order: { taken_on: 'ASC', id: 'ASC' },
    });
    const values = await reading.manager.find(MeasuredValueRow, {
      where: { set_id: In(sets.map(({ id }) => id)) },
      order: { set_id: 'ASC', place: 'ASC' },
    });
    const bySet = new Map<string, MeasuredValueRow[]>();
    for (const value of values) bySet.set(value.set_id, [...(bySet.get(value.set_id) ?? []), value]);
    return sets.map((row) => setOf(row, bySet.get(row.id) ?? []));
  },

  /** @throws NotFound also when the set is another client's */
  async one(reading: Reading, clientId: string, id: string): Promise<KeptSet> {
    const row = await reading.manager.findOneBy(MeasurementSetRow, { id, client_id: clientId });
    if (!row) throw new NotFound('set of measurements');
    const values = await reading.manager.find(MeasuredValueRow, {
      where: { set_id: id },
      order: { place: 'ASC' },
    });
    return setOf(row, values);
  },

  async add(writing: Writing, set: KeptSet): Promise<KeptSet> {
    await this.addAll(writing, [set]);
    return set;
  },

  async addAll(writing: Writing, sets: readonly KeptSet[]): Promise<void> {
    await writing.insertAll(MeasurementSetRow, sets.map(setColumns));
    await writing.insertAll(
      MeasuredValueRow,
      sets.flatMap((set) =>
        set.values.map((value, place) => ({ id: writing.newId(), ...valueColumns(set.id, value, place) })),
      ),
    );
  },
};

const setColumns = (set: KeptSet): Omit<MeasurementSetRow, 'version'> => ({
  id: set.id,
  client_id: set.wearer,
  taken_on: set.takenOn,
  taken_by: set.takenBy,
  worn: set.over,
  figuration: set.figuration,
  guardian: set.guardian,
  garment_type: set.garmentType,
  instead_of: set.insteadOf ?? null,
});

const valueColumns = (
  setId: string,
  { dimension, entry, confirmed }: MeasuredValue,
  place: number,
): Omit<MeasuredValueRow, 'id' | 'version'> => ({
  set_id: setId,
  dimension_id: dimension,
  place,
  typed: entry.typed,
  unit: entry.unit,
  mm: entry.mm,
  note: entry.note ?? null,
  shown: entry.shown,
  confirmed,
});

const setOf = (row: MeasurementSetRow, values: readonly MeasuredValueRow[]): KeptSet => ({
  id: row.id,
  wearer: row.client_id,
  takenOn: row.taken_on,
  takenBy: row.taken_by,
  over: row.worn,
  figuration: row.figuration,
  guardian: row.guardian,
  garmentType: row.garment_type,
  insteadOf: row.instead_of ?? undefined,
  values: values.map(measuredOf),
});

const measuredOf = (row: MeasuredValueRow): MeasuredValue => ({
  dimension: row.dimension_id,
  confirmed: row.confirmed,
  entry: {
    typed: row.typed,
    unit: row.unit as LengthUnit,
    mm: row.mm,
    shown: row.shown,
    ...(row.note === null ? {} : { note: row.note as LengthNote }),
  },
});
