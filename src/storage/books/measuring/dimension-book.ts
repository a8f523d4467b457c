import type { BodyDimension, DimensionSort } from '../../../domain/measuring/body-dimension.js';
import { inParts } from '../../in-parts.js';
import { BodyDimensionRow } from '../../rows/clients/body-dimension.row.js';
import type { Reading, Writing } from '../../session.js';

/** The book of what the studio measures: the starting list, and what it has added in its own words. */
export const dimensionBook = {
  /** All of them, in the studio's order. */
  async all(reading: Reading): Promise<BodyDimension[]> {
    const rows = await reading.manager.find(BodyDimensionRow, { order: { place: 'ASC', id: 'ASC' } });
    return rows.map(dimensionOf);
  },

  /** Brings the starting list into a new studio. It leaves no lines of history: nobody made it. */
  async bring(writing: Writing, dimensions: readonly BodyDimension[]): Promise<void> {
    const rows = dimensions.map((one, place) => ({ version: 1, place, ...columnsOf(one) }));
    for (const some of inParts(rows, 40)) await writing.manager.insert(BodyDimensionRow, some);
  },

  /** Adds one in the studio's own words, at the end of the list. */
  async addOwn(writing: Writing, words: string): Promise<BodyDimension> {
    const dimension: BodyDimension = {
      id: `own-${writing.newId()}`,
      name: words,
      fromStandard: false,
      tradeWord: words,
      sort: 'length',
      how: '',
      source: 'the studio’s own',
    };
    const place = await writing.manager.count(BodyDimensionRow);
    await writing.insert(BodyDimensionRow, { place, ...columnsOf(dimension) });
    return dimension;
  },
};

const dimensionOf = (row: BodyDimensionRow): BodyDimension => ({
  id: row.id,
  name: row.name,
  fromStandard: row.from_standard,
  tradeWord: row.trade_word,
  sort: row.sort as DimensionSort,
  how: row.how,
  source: row.source,
  ...(row.survey === '' ? {} : { survey: row.survey }),
});

const columnsOf = (dimension: BodyDimension): Omit<BodyDimensionRow, 'version' | 'place'> => ({
  id: dimension.id,
  name: dimension.name,
  from_standard: dimension.fromStandard,
  trade_word: dimension.tradeWord,
  sort: dimension.sort,
  how: dimension.how,
  survey: dimension.survey ?? '',
  source: dimension.source,
});
