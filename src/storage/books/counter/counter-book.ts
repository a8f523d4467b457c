import { foldForSearch } from '../../../domain/clients/client.js';
import type { CounterTicket } from '../../../domain/counter/counter-ticket.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { CounterTicketRow } from '../../rows/beside/counter-ticket.row.js';
import type { Reading, Writing } from '../../session.js';
import type { PageOf } from '../client-book.js';
import { holdingWords } from '../cloth-room/folded-words.js';
import { seriesBook } from '../series-book.js';

export type CounterWords = Omit<CounterTicket, 'id' | 'version' | 'number'>;

export const counterSubject = (id: string): string => `counter/${id}`;

const MOST_HERE = 500;

/** The book of counter tickets. */
export const counterBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<CounterTicket> {
    const row = await reading.manager.findOneBy(CounterTicketRow, { id });
    if (!row) throw new NotFound('counter ticket');
    return ticketOf(row);
  },

  /** What is in the house and not collected: what is ready longest first, then what is to be ready first. */
  async here(reading: Reading): Promise<CounterTicket[]> {
    const rows = await reading.manager
      .createQueryBuilder(CounterTicketRow, 'one')
      .where('one.collected_on IS NULL')
      .orderBy('CASE WHEN one.ready_on IS NULL THEN 1 ELSE 0 END')
      .addOrderBy('one.ready_on')
      .addOrderBy('CASE WHEN one.ready_by IS NULL THEN 1 ELSE 0 END')
      .addOrderBy('one.ready_by')
      .addOrderBy('one.id')
      .take(MOST_HERE)
      .getMany();
    return rows.map(ticketOf);
  },

  /** Newest first. @param asked words the number, name or work hold */
  async list(
    reading: Reading,
    limit = 30,
    after = '',
    asked = '',
    isCollected = false,
  ): Promise<PageOf<CounterTicket>> {
    const query = reading.manager.createQueryBuilder(CounterTicketRow, 'one').orderBy('one.id', 'DESC');
    holdingWords(query, 'one', asked);
    if (isCollected) query.andWhere('one.collected_on IS NOT NULL');
    if (after) query.andWhere('one.id < :after', { after });
    const rows = await query.take(limit + 1).getMany();
    return {
      items: rows.slice(0, limit).map(ticketOf),
      next: rows.length > limit ? rows[limit - 1]?.id : undefined,
    };
  },

  /** Opens a ticket under the next number of its own series. */
  async open(writing: Writing, words: CounterWords): Promise<CounterTicket> {
    const number = `T-${String(await seriesBook.take(writing, 'counter')).padStart(4, '0')}`;
    const id = writing.newId();
    return ticketOf(await writing.insert(CounterTicketRow, { id, number, ...columnsOf(words, number) }));
  },

  /** @throws Stale when somebody changed it meanwhile */
  async correct(
    writing: Writing,
    { id, version: _, number, ...words }: CounterTicket,
    seen?: number,
  ): Promise<CounterTicket> {
    return ticketOf(await writing.update(CounterTicketRow, id, columnsOf(words, number), seen));
  },
};

const columnsOf = (
  words: CounterWords,
  number: string,
): Omit<CounterTicketRow, 'id' | 'version' | 'number'> => ({
  came_on: words.cameOn,
  name: words.name,
  reached_at: words.reachedAt,
  what: words.what,
  found: words.found,
  currency: words.currency,
  lines: JSON.stringify(words.lines.map(({ job, price }) => ({ job, price: price ?? null }))),
  ready_by: words.readyBy ?? null,
  ready_on: words.readyOn ?? null,
  collected_on: words.collectedOn ?? null,
  collected_by: words.collectedBy,
  notes: words.notes,
  folded: foldForSearch([number, words.name, words.what].join(' ')),
});

const ticketOf = (row: CounterTicketRow): CounterTicket => ({
  id: row.id,
  version: row.version,
  number: row.number,
  cameOn: row.came_on,
  name: row.name,
  reachedAt: row.reached_at,
  what: row.what,
  found: row.found,
  currency: row.currency,
  lines: (JSON.parse(row.lines) as { job: string; price: string | null }[]).map(({ job, price }) => ({
    job,
    price: price === null ? undefined : Money.parse(price, row.currency),
  })),
  readyBy: row.ready_by ?? undefined,
  readyOn: row.ready_on ?? undefined,
  collectedOn: row.collected_on ?? undefined,
  collectedBy: row.collected_by,
  notes: row.notes,
});
