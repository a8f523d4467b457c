import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Invalid } from '../../domain/kernel/errors.js';
import { type Caution, type CautionPlace, caution } from '../../domain/making/caution.js';
import { type GarmentType, garmentType } from '../../domain/making/garment-type.js';
import {
  type KnownOperation,
  knownOperation,
  type OperationLine,
} from '../../domain/making/known-operation.js';
import { type BodyDimension, bodyDimension } from '../../domain/measuring/body-dimension.js';
import { linesOf } from './tab-separated.js';

/** What a new studio begins with. */
export type Starter = {
  readonly garmentTypes: readonly GarmentType[];
  readonly operations: readonly KnownOperation[];
  readonly dimensions: readonly BodyDimension[];
  readonly cautions: readonly Caution[];
};

const OPERATION_COLUMNS = [
  'garment_type',
  'no',
  'kind',
  'stage',
  'operation',
  'mode',
  'driver',
  'typical_count',
  'low_h',
  'typical_h',
  'high_h',
  'note',
  'basting',
  'instead_of',
  'makes',
  'source',
] as const satisfies readonly (keyof OperationLine)[];

const DIMENSION_COLUMNS = [
  'id',
  'name',
  'from_standard',
  'trade_word',
  'sort',
  'how',
  'survey',
  'source',
] as const;

type TypeEntry = { id: string; name: string; plural: string; menu?: boolean };
type CautionEntry = { id: string; place: CautionPlace; calledBy: string[]; sentence: string; source: string };

const typesFrom = (entries: TypeEntry[], lists: Record<string, string[]>): GarmentType[] =>
  entries.map(({ id, name, plural, menu }) =>
    garmentType({ id, name, plural, isMenu: menu === true, measuringList: lists[id] ?? [] }),
  );

const dimensionsFrom = (text: string): BodyDimension[] =>
  linesOf(text, DIMENSION_COLUMNS).map(({ from_standard, trade_word, ...line }) =>
    bodyDimension({ ...line, fromStandard: from_standard, tradeWord: trade_word }),
  );

// A list that names what is not there would surface much later, as an empty row on a measurement card.
const mustFit = ({ garmentTypes, operations, dimensions }: Starter): void => {
  const types = new Set(garmentTypes.map(({ id }) => id));
  const known = new Set(dimensions.map(({ id }) => id));
  const strayType = operations.find((one) => !types.has(one.garmentType));
  if (strayType)
    throw new Invalid(`The starting operations name a type nobody knows: ${strayType.garmentType}.`);
  for (const { id, measuringList } of garmentTypes) {
    const stray = measuringList.find((dimension) => !known.has(dimension));
    if (stray) throw new Invalid(`The measuring list of ${id} names a dimension nobody knows: ${stray}.`);
  }
};

/**
 * Reads the starting values of the program from a folder, all checked.
 *
 * @param folder the folder `data/starter`
 * @throws Invalid naming the line at fault
 */
export const readStarter = async (folder: string): Promise<Starter> => {
  const text = (name: string) => readFile(join(folder, name), 'utf8');
  const [types, lists, operations, dimensions, cautions] = await Promise.all([
    text('garment-types.json'),
    text('measuring-lists.json'),
    text('operations.tsv'),
    text('body-dimensions.tsv'),
    text('cautions.json'),
  ]);
  const starter: Starter = {
    garmentTypes: typesFrom(JSON.parse(types) as TypeEntry[], JSON.parse(lists) as Record<string, string[]>),
    operations: linesOf(operations, OPERATION_COLUMNS).map(knownOperation),
    dimensions: dimensionsFrom(dimensions),
    cautions: (JSON.parse(cautions) as CautionEntry[]).map(caution),
  };
  mustFit(starter);
  return starter;
};
