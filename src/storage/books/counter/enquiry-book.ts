import { In } from 'typeorm';
import { foldForSearch } from '../../../domain/clients/client.js';
import type { Enquiry, EnquiryState } from '../../../domain/clients/enquiry.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { EnquiryRow } from '../../rows/beside/enquiry.row.js';
import type { Reading, Writing } from '../../session.js';
import type { PageOf } from '../client-book.js';
import { holdingWords } from '../cloth-room/folded-words.js';

export type EnquiryWords = Omit<Enquiry, 'id' | 'version'>;

export const enquirySubject = (id: string): string => `enquiry/${id}`;

const MOST_OPEN = 500;

/** The book of enquiries. */
export const enquiryBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Enquiry> {
    const row = await reading.manager.findOneBy(EnquiryRow, { id });
    if (!row) throw new NotFound('enquiry');
    return enquiryOf(row);
  },

  /** Those that wait, as they were asked. */
  async open(reading: Reading): Promise<Enquiry[]> {
    const rows = await reading.manager.find(EnquiryRow, {
      where: { state: In(['waiting', 'invited']) },
      order: { id: 'ASC' },
      take: MOST_OPEN,
    });
    return rows.map(enquiryOf);
  },

  /** Newest first. @param asked words the name or what was asked for hold */
  async list(reading: Reading, limit = 30, after = '', asked = '', isOver = false): Promise<PageOf<Enquiry>> {
    const query = reading.manager.createQueryBuilder(EnquiryRow, 'one').orderBy('one.id', 'DESC');
    holdingWords(query, 'one', asked);
    if (isOver) query.andWhere('one.state IN (:...over)', { over: ['commissioned', 'declined', 'lapsed'] });
    if (after) query.andWhere('one.id < :after', { after });
    const rows = await query.take(limit + 1).getMany();
    return {
      items: rows.slice(0, limit).map(enquiryOf),
      next: rows.length > limit ? rows[limit - 1]?.id : undefined,
    };
  },

  async add(writing: Writing, words: EnquiryWords): Promise<Enquiry> {
    return enquiryOf(await writing.insert(EnquiryRow, { id: writing.newId(), ...columnsOf(words) }));
  },

  /** @throws Stale when somebody changed it meanwhile */
  async correct(writing: Writing, { id, version: _, ...words }: Enquiry, seen?: number): Promise<Enquiry> {
    return enquiryOf(await writing.update(EnquiryRow, id, columnsOf(words), seen));
  },
};

const columnsOf = (words: EnquiryWords): Omit<EnquiryRow, 'id' | 'version'> => ({
  name: words.name,
  reached_at: words.reachedAt,
  what: words.what,
  asked_on: words.askedOn,
  wanted_by: words.wantedBy ?? null,
  state: words.state,
  next_on: words.nextOn ?? null,
  notes: words.notes,
  client_id: words.clientId ?? null,
  commission_id: words.commissionId ?? null,
  folded: foldForSearch([words.name, words.what].join(' ')),
});

const enquiryOf = (row: EnquiryRow): Enquiry => ({
  id: row.id,
  version: row.version,
  name: row.name,
  reachedAt: row.reached_at,
  what: row.what,
  askedOn: row.asked_on,
  wantedBy: row.wanted_by ?? undefined,
  state: row.state as EnquiryState,
  nextOn: row.next_on ?? undefined,
  notes: row.notes,
  clientId: row.client_id ?? undefined,
  commissionId: row.commission_id ?? undefined,
});
