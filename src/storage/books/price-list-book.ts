import { Decimal } from '../../domain/kernel/decimal.js';
import { NotFound } from '../../domain/kernel/errors.js';
import { Money } from '../../domain/kernel/money.js';
import type { PriceListLine, PriceListSort } from '../../domain/pricing/price-list-line.js';
import { StandingPriceRow } from '../rows/rates/standing-price.row.js';
import type { Reading, Writing } from '../session.js';
import { studioBook } from './studio-book.js';

export type PriceListWords = Omit<PriceListLine, 'id' | 'version'>;

/** The book of standing prices: counter work, alterations, make-and-trim. */
export const priceListBook = {
  /** Every line, counter work first, each sort in its order. */
  async all(reading: Reading): Promise<PriceListLine[]> {
    const rows = await reading.manager.find(StandingPriceRow, {
      order: { sort: 'ASC', place: 'ASC', id: 'ASC' },
    });
    const currency = await currencyOf(reading);
    return rows.map((row) => lineOf(row, currency));
  },

  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<PriceListLine> {
    const row = await reading.manager.findOneBy(StandingPriceRow, { id });
    if (!row) throw new NotFound('line of the price list');
    return lineOf(row, await currencyOf(reading));
  },

  async add(writing: Writing, words: PriceListWords): Promise<PriceListLine> {
    const place = await writing.manager.countBy(StandingPriceRow, { sort: words.sort });
    const row = await writing.insert(StandingPriceRow, {
      id: writing.newId(),
      place: place + 1,
      ...columnsOf(words),
    });
    return lineOf(row, await currencyOf(writing));
  },

  /** @throws Stale when somebody corrected it meanwhile */
  async correct(writing: Writing, id: string, words: PriceListWords, seen?: number): Promise<PriceListLine> {
    const row = await writing.update(StandingPriceRow, id, columnsOf(words), seen);
    return lineOf(row, await currencyOf(writing));
  },

  async remove(writing: Writing, id: string, seen?: number): Promise<void> {
    await writing.remove(StandingPriceRow, id, seen);
  },
};

const currencyOf = async (reading: Reading): Promise<string> =>
  (await studioBook.the(reading)).identity.currency;

const lineOf = (row: StandingPriceRow, currency: string): PriceListLine => ({
  id: row.id,
  version: row.version,
  sort: row.sort as PriceListSort,
  name: row.name,
  hours: new Decimal(row.hours),
  trimmings: row.trimmings === null ? undefined : Money.ofMinor(row.trimmings, currency),
  ownPrice: row.own_price === null ? undefined : Money.ofMinor(row.own_price, currency),
  takenFrom: row.taken_from ?? undefined,
  fromStartingValues: row.from_starting_values,
});

const columnsOf = (words: PriceListWords): Omit<StandingPriceRow, 'id' | 'version' | 'place'> => ({
  sort: words.sort,
  name: words.name,
  hours: words.hours.toFixed(),
  trimmings: words.trimmings?.minor ?? null,
  own_price: words.ownPrice?.minor ?? null,
  taken_from: words.takenFrom ?? null,
  from_starting_values: words.fromStartingValues,
});
