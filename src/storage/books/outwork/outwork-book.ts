import { foldForSearch } from '../../../domain/clients/client.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { type OutworkTicket, outworkComesTo } from '../../../domain/outwork/outwork.js';
import { OutworkTicketRow } from '../../rows/beside/outwork-ticket.row.js';
import { OutworkerRow } from '../../rows/beside/outworker.row.js';
import { MoneyOutRow } from '../../rows/money-out/money-out.row.js';
import type { Reading, Writing } from '../../session.js';
import type { PageOf } from '../client-book.js';
import { holdingWords } from '../cloth-room/folded-words.js';
import { moneyOutBook } from '../money-out/money-out-book.js';
import { seriesBook } from '../series-book.js';

export type OutworkWords = Omit<OutworkTicket, 'id' | 'version' | 'number'>;

export const outworkSubject = (id: string): string => `outwork/${id}`;

const MOST_OUT = 500;

/** The book of outwork tickets. */
export const outworkBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<OutworkTicket> {
    const row = await reading.manager.findOneBy(OutworkTicketRow, { id });
    if (!row) throw new NotFound('outwork ticket');
    return ticketOf(row);
  },

  /** What is out now: what is due first stands first. */
  async out(reading: Reading): Promise<OutworkTicket[]> {
    const rows = await reading.manager
      .createQueryBuilder(OutworkTicketRow, 'ticket')
      .where('ticket.back_on IS NULL')
      .orderBy('CASE WHEN ticket.due_on IS NULL THEN 1 ELSE 0 END')
      .addOrderBy('ticket.due_on')
      .addOrderBy('ticket.id')
      .take(MOST_OUT)
      .getMany();
    return rows.map(ticketOf);
  },

  /** Newest first. @param asked words the number, work or garment hold */
  async list(reading: Reading, limit = 30, after = '', asked = ''): Promise<PageOf<OutworkTicket>> {
    const query = reading.manager.createQueryBuilder(OutworkTicketRow, 'ticket').orderBy('ticket.id', 'DESC');
    holdingWords(query, 'ticket', asked);
    if (after) query.andWhere('ticket.id < :after', { after });
    const rows = await query.take(limit + 1).getMany();
    return {
      items: rows.slice(0, limit).map(ticketOf),
      next: rows.length > limit ? rows[limit - 1]?.id : undefined,
    };
  },

  /** Of a garment, oldest first. */
  async ofGarment(reading: Reading, garmentId: string): Promise<OutworkTicket[]> {
    const rows = await reading.manager.find(OutworkTicketRow, {
      where: { garment_id: garmentId },
      order: { id: 'ASC' },
    });
    return rows.map(ticketOf);
  },

  /** What is back and not paid, with whom, oldest first. */
  async owed({ manager }: Reading): Promise<(OutworkTicket & { readonly outworkerName: string })[]> {
    const { entities, raw } = await manager
      .createQueryBuilder(OutworkTicketRow, 'ticket')
      .innerJoin(OutworkerRow, 'outworker', 'outworker.id = ticket.outworker_id')
      .addSelect('outworker.name', 'outworker_name')
      .where('ticket.back_on IS NOT NULL')
      .andWhere('ticket.piece_rate > 0')
      .andWhere((query) => {
        const back = query.subQuery().select('1').from(MoneyOutRow, 'back').where('back.of_id = paid.id');
        const paid = query
          .subQuery()
          .select('1')
          .from(MoneyOutRow, 'paid')
          .where('paid.ticket_id = ticket.id')
          .andWhere('paid.of_id IS NULL')
          .andWhere(`NOT EXISTS ${back.getQuery()}`);
        return `NOT EXISTS ${paid.getQuery()}`;
      })
      .orderBy('ticket.back_on')
      .addOrderBy('ticket.id')
      .limit(MOST_OUT)
      .getRawAndEntities<{ outworker_name: string }>();
    return entities.map((row, place) => ({
      ...ticketOf(row),
      outworkerName: raw[place]?.outworker_name ?? '',
    }));
  },

  /** Opens a ticket under the next number of its own series. */
  async open(writing: Writing, words: OutworkWords): Promise<OutworkTicket> {
    const number = `W-${String(await seriesBook.take(writing, 'outwork')).padStart(4, '0')}`;
    const id = writing.newId();
    return ticketOf(await writing.insert(OutworkTicketRow, { id, number, ...columnsOf(words, number) }));
  },

  /** @throws Stale when somebody changed it meanwhile */
  async correct(
    writing: Writing,
    { id, version: _, number, ...words }: OutworkTicket,
    seen?: number,
  ): Promise<OutworkTicket> {
    return ticketOf(await writing.update(OutworkTicketRow, id, columnsOf(words, number), seen));
  },

  /** Of a garment: outwork agreed and not yet among its bills. */
  async toCome(reading: Reading, garmentId: string, currency: string): Promise<Money> {
    const tickets = await this.ofGarment(reading, garmentId);
    const paid = await moneyOutBook.ofTickets(
      reading,
      tickets.map(({ id }) => id),
    );
    return Money.sum(tickets.filter(({ id }) => !paid.has(id)).map(outworkComesTo), currency);
  },
};

const columnsOf = (
  words: OutworkWords,
  number: string,
): Omit<OutworkTicketRow, 'id' | 'version' | 'number'> => ({
  outworker_id: words.outworkerId,
  commission_id: words.commissionId,
  garment_id: words.garmentId,
  garment_name: words.garmentName,
  work: words.work,
  pieces: words.pieces,
  currency: words.pieceRate.currency,
  piece_rate: words.pieceRate.minor,
  out_on: words.outOn,
  due_on: words.dueOn ?? null,
  back_on: words.backOn ?? null,
  checked_on: words.checkedOn ?? null,
  found: words.found,
  notes: words.notes,
  folded: foldForSearch([number, words.work, words.garmentName].join(' ')),
});

const ticketOf = (row: OutworkTicketRow): OutworkTicket => ({
  id: row.id,
  version: row.version,
  number: row.number,
  outworkerId: row.outworker_id,
  commissionId: row.commission_id,
  garmentId: row.garment_id,
  garmentName: row.garment_name,
  work: row.work,
  pieces: row.pieces,
  pieceRate: Money.ofMinor(row.piece_rate, row.currency),
  outOn: row.out_on,
  dueOn: row.due_on ?? undefined,
  backOn: row.back_on ?? undefined,
  checkedOn: row.checked_on ?? undefined,
  found: row.found,
  notes: row.notes,
});
