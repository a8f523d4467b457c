import { Decimal } from '../../domain/kernel/decimal.js';
import { NotFound } from '../../domain/kernel/errors.js';
import type { GarmentType } from '../../domain/making/garment-type.js';
import type { KnownOperation } from '../../domain/making/known-operation.js';
import type { Driver, Make, Mode, Stage } from '../../domain/making/mode.js';
import { inParts } from '../in-parts.js';
import { GarmentTypeRow } from '../rows/making/garment-type.row.js';
import { KnownOperationRow } from '../rows/making/known-operation.row.js';
import { keptIn, type Reading, type Writing } from '../session.js';
import type { Starter } from '../starter/read-starter.js';
import { dimensionBook } from './measuring/dimension-book.js';

/** A known operation with its key and version, so that it can be changed. */
export type KeptOperation = KnownOperation & { readonly id: string; readonly version: number };
export type KeptType = GarmentType & { readonly version: number };

const wordsOf = (text: string): string[] => text.split(' ').filter((word) => word !== '');

/** The book of making: the types of garment and the operations the studio knows. */
export const makingBook = {
  async types(reading: Reading): Promise<KeptType[]> {
    return (await reading.manager.find(GarmentTypeRow, { order: { name: 'ASC' } })).map(typeOf);
  },

  /** @throws NotFound */
  async type(reading: Reading, id: string): Promise<KeptType> {
    const row = await reading.manager.findOneBy(GarmentTypeRow, { id });
    if (!row) throw new NotFound('garment type');
    return typeOf(row);
  },

  /** The operations known for a type, in order; of every type when none is named. */
  async operations(reading: Reading, typeId?: string): Promise<KeptOperation[]> {
    return keptIn(reading, `known operations ${typeId ?? ''}`, async () => {
      const rows = await reading.manager.find(KnownOperationRow, {
        ...(typeId === undefined ? {} : { where: { garment_type: typeId } }),
        order: { garment_type: 'ASC', no: 'ASC' },
      });
      return rows.map(operationOf);
    });
  },

  /** @throws NotFound */
  async operation(reading: Reading, id: string): Promise<KeptOperation> {
    const row = await reading.manager.findOneBy(KnownOperationRow, { id });
    if (!row) throw new NotFound('operation');
    return operationOf(row);
  },

  /** Brings the starting types, operations and body dimensions into a new studio, without history: nobody made them. */
  async bring(writing: Writing, starter: Starter): Promise<void> {
    const types = starter.garmentTypes.map((type) => ({ ...typeColumns(type), version: 1 }));
    const operations = starter.operations.map((known) => ({
      id: writing.newId(),
      version: 1,
      ...operationColumns(known),
    }));
    await writing.manager.insert(GarmentTypeRow, types);
    await dimensionBook.bring(writing, starter.dimensions);
    for (const some of inParts(operations, 40)) {
      await writing.manager.insert(KnownOperationRow, some);
    }
  },

  async addType(writing: Writing, type: GarmentType): Promise<void> {
    await writing.insert(GarmentTypeRow, typeColumns(type));
  },

  async changeType(writing: Writing, type: GarmentType, seen?: number): Promise<void> {
    await writing.update(GarmentTypeRow, type.id, typeColumns(type), seen);
  },

  async addOperation(writing: Writing, known: KnownOperation): Promise<string> {
    const id = writing.newId();
    await writing.insert(KnownOperationRow, { id, ...operationColumns(known) });
    return id;
  },

  async changeOperation(writing: Writing, id: string, known: KnownOperation, seen?: number): Promise<void> {
    await writing.update(KnownOperationRow, id, operationColumns(known), seen);
  },

  async removeOperation(writing: Writing, id: string, seen?: number): Promise<void> {
    await writing.remove(KnownOperationRow, id, seen);
  },
};

const typeOf = (row: GarmentTypeRow): KeptType => ({
  id: row.id,
  version: row.version,
  name: row.name,
  plural: row.plural,
  isMenu: row.is_menu,
  measuringList: wordsOf(row.measuring_list),
});

const typeColumns = (type: GarmentType): Omit<GarmentTypeRow, 'version'> => ({
  id: type.id,
  name: type.name,
  plural: type.plural,
  is_menu: type.isMenu,
  measuring_list: type.measuringList.join(' '),
});

const operationOf = (row: KnownOperationRow): KeptOperation => ({
  id: row.id,
  version: row.version,
  garmentType: row.garment_type,
  no: row.no,
  kind: row.kind,
  name: row.name,
  stage: row.stage as Stage,
  mode: row.mode as Mode,
  driver: row.driver as Driver,
  typicalCount: new Decimal(row.typical_count),
  fixedMinutes: new Decimal(row.fixed_minutes),
  minutesPerUnit: new Decimal(row.minutes_per_unit),
  ...(row.starting_spread === null ? {} : { startingSpread: new Decimal(row.starting_spread) }),
  needsMinutes: row.needs_minutes,
  basting: row.basting,
  isAlternative: row.is_alternative,
  insteadOf: wordsOf(row.instead_of).map(Number),
  makes: wordsOf(row.makes) as Make[],
  isMenu: row.is_menu,
  fromStartingValues: row.from_starting_values,
  source: row.source,
});

const operationColumns = (known: KnownOperation): Omit<KnownOperationRow, 'id' | 'version'> => ({
  garment_type: known.garmentType,
  no: known.no,
  kind: known.kind,
  name: known.name,
  stage: known.stage,
  mode: known.mode,
  driver: known.driver,
  typical_count: known.typicalCount.toFixed(),
  fixed_minutes: known.fixedMinutes.toFixed(),
  minutes_per_unit: known.minutesPerUnit.toFixed(),
  starting_spread: known.startingSpread?.toFixed() ?? null,
  needs_minutes: known.needsMinutes,
  basting: known.basting,
  is_alternative: known.isAlternative,
  instead_of: known.insteadOf.join(' '),
  makes: known.makes.join(' '),
  is_menu: known.isMenu,
  from_starting_values: known.fromStartingValues,
  source: known.source,
});
