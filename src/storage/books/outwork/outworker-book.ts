import { foldForSearch } from '../../../domain/clients/client.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import type { Outworker } from '../../../domain/outwork/outwork.js';
import { OutworkerRow } from '../../rows/beside/outworker.row.js';
import type { Reading, Writing } from '../../session.js';
import { studioBook } from '../studio-book.js';

export type OutworkerWords = Omit<Outworker, 'id' | 'version'>;

const MOST_LISTED = 500;

/** The book of outworkers and their piece rates. */
export const outworkerBook = {
  /** By name. */
  async all(reading: Reading): Promise<Outworker[]> {
    const rows = await reading.manager.find(OutworkerRow, {
      order: { folded: 'ASC', id: 'ASC' },
      take: MOST_LISTED,
    });
    const currency = rows.length > 0 ? await currencyOf(reading) : '';
    return rows.map((row) => outworkerOf(row, currency));
  },

  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Outworker> {
    const row = await reading.manager.findOneBy(OutworkerRow, { id });
    if (!row) throw new NotFound('outworker');
    return outworkerOf(row, await currencyOf(reading));
  },

  async add(writing: Writing, words: OutworkerWords): Promise<Outworker> {
    const row = await writing.insert(OutworkerRow, { id: writing.newId(), ...columnsOf(words) });
    return outworkerOf(row, await currencyOf(writing));
  },

  /** @throws Stale when somebody corrected it meanwhile */
  async correct(writing: Writing, id: string, words: OutworkerWords, seen?: number): Promise<Outworker> {
    const row = await writing.update(OutworkerRow, id, columnsOf(words), seen);
    return outworkerOf(row, await currencyOf(writing));
  },
};

const currencyOf = async (reading: Reading): Promise<string> =>
  (await studioBook.the(reading)).identity.currency;

const columnsOf = (words: OutworkerWords): Omit<OutworkerRow, 'id' | 'version'> => ({
  name: words.name,
  reached_at: words.reachedAt,
  rates: JSON.stringify(words.rates),
  notes: words.notes,
  folded: foldForSearch(words.name),
});

const outworkerOf = (row: OutworkerRow, currency: string): Outworker => ({
  id: row.id,
  version: row.version,
  name: row.name,
  reachedAt: row.reached_at,
  rates: (JSON.parse(row.rates) as { work: string; price: string }[]).map(({ work, price }) => ({
    work,
    price: Money.parse(price, currency),
  })),
  notes: row.notes,
});
