import { foldForSearch } from '../../../domain/clients/client.js';
import type { CalendarDate, Instant } from '../../../domain/kernel/calendar-date.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import type { QuoteAnswer } from '../../../domain/papers/quote/quote-answer.js';
import { IssuedQuoteRow } from '../../rows/papers/issued-quote.row.js';
import { QuotePdfRow } from '../../rows/papers/quote-pdf.row.js';
import type { Reading, Writing } from '../../session.js';
import type { PageOf } from '../client-book.js';
import { quoteAnswerBook } from './quote-answer-book.js';

/** One issued version as lists need it, with what was answered. */
export type ListedQuote = {
  readonly id: string;
  readonly commissionId: string;
  readonly clientId: string;
  readonly number: string;
  readonly edition: number;
  readonly clientName: string;
  readonly title: string;
  readonly issuedOn: CalendarDate;
  readonly validUntil: CalendarDate | undefined;
  readonly issuedAt: Instant;
  readonly total: Money;
  readonly sha256: string;
  /** Is there a later version under the same number? */
  readonly laterEdition: boolean;
  /** Oldest first. */
  readonly answers: readonly QuoteAnswer[];
};

/** One issued version whole. */
export type IssuedQuote = ListedQuote & {
  /** JSON: see the Quotes room. */
  readonly document: string;
  readonly costs: string;
};

export type QuoteToIssue = Omit<IssuedQuote, 'id' | 'issuedAt' | 'laterEdition' | 'answers'> & {
  readonly pdf: Uint8Array;
  /** What else it is found by, such as the commission's number. */
  readonly foundBy: string;
};

const LISTED = [
  'id',
  'version',
  'commission_id',
  'client_id',
  'number',
  'edition',
  'client_name',
  'title',
  'issued_on',
  'valid_until',
  'issued_at',
  'currency',
  'total',
  'sha256',
] as const;
const columns = LISTED.map((column) => `quote.${column}`);

/** The book of issued quotes. They are added and read; nothing here changes one. */
export const quoteBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<IssuedQuote> {
    const row = await reading.manager.findOneBy(IssuedQuoteRow, { id });
    if (!row) throw new NotFound('paper');
    const [listed] = await listedOf(reading, [row]);
    return { ...listed!, document: row.document, costs: row.costs };
  },

  /** The bytes that went out. @throws NotFound */
  async pdf(reading: Reading, id: string): Promise<Buffer> {
    const row = await reading.manager.findOneBy(QuotePdfRow, { id });
    if (!row) throw new NotFound('paper');
    return Buffer.from(row.bytes, 'base64');
  },

  /** A commission's issued versions, newest first. */
  async ofCommission(reading: Reading, commissionId: string): Promise<ListedQuote[]> {
    const rows = await reading.manager
      .createQueryBuilder(IssuedQuoteRow, 'quote')
      .select(columns)
      .where('quote.commission_id = :commissionId', { commissionId })
      .orderBy('quote.id', 'DESC')
      .getMany();
    return listedOf(reading, rows);
  },

  /** Newest first, found by number, client, title or commission. @param after the last key of the page before */
  async find(reading: Reading, asked = '', limit = 20, after = ''): Promise<PageOf<ListedQuote>> {
    const query = reading.manager
      .createQueryBuilder(IssuedQuoteRow, 'quote')
      .select(columns)
      .orderBy('quote.id', 'DESC');
    foldForSearch(asked)
      .split(' ')
      .filter((word) => word !== '')
      .slice(0, 8)
      .forEach((word, index) => {
        const pattern = `%${word.replace(/[\\%_]/g, '\\$&')}%`;
        query.andWhere(`quote.folded LIKE :word${index} ESCAPE '\\'`, { [`word${index}`]: pattern });
      });
    if (after) query.andWhere('quote.id < :after', { after });
    const rows = await query.take(limit + 1).getMany();
    return {
      items: await listedOf(reading, rows.slice(0, limit)),
      next: rows.length > limit ? rows[limit - 1]?.id : undefined,
    };
  },

  /** The last version issued under a number; 0 when there is none. */
  async lastEdition(reading: Reading, number: string): Promise<number> {
    const row = await reading.manager
      .createQueryBuilder(IssuedQuoteRow, 'quote')
      .select('MAX(quote.edition)', 'last')
      .where('quote.number = :number', { number })
      .getRawOne<{ last: number | string | null }>();
    return Number(row?.last ?? 0);
  },

  /** Keeps a version and its bytes for good. */
  async issue(writing: Writing, quote: QuoteToIssue): Promise<string> {
    const id = writing.newId();
    await writing.insertForGood(IssuedQuoteRow, {
      id,
      commission_id: quote.commissionId,
      client_id: quote.clientId,
      number: quote.number,
      edition: quote.edition,
      client_name: quote.clientName,
      title: quote.title,
      folded: foldForSearch([quote.number, quote.clientName, quote.title, quote.foundBy].join(' ')),
      issued_on: quote.issuedOn,
      valid_until: quote.validUntil ?? null,
      issued_at: writing.at,
      currency: quote.total.currency,
      total: quote.total.minor,
      document: quote.document,
      costs: quote.costs,
      sha256: quote.sha256,
    });
    // Not through the act's history: it can never be undone, the history holds its SHA-256, and would double its size.
    await writing.manager.insert(QuotePdfRow, {
      id,
      version: 1,
      bytes: Buffer.from(quote.pdf).toString('base64'),
    });
    return id;
  },
};

const listedOf = async (reading: Reading, rows: readonly IssuedQuoteRow[]): Promise<ListedQuote[]> => {
  if (rows.length === 0) return [];
  const answers = await quoteAnswerBook.to(
    reading,
    rows.map(({ id }) => id),
  );
  const last = await reading.manager
    .createQueryBuilder(IssuedQuoteRow, 'quote')
    .select('quote.number', 'number')
    .addSelect('MAX(quote.edition)', 'last')
    .where('quote.number IN (:...numbers)', { numbers: [...new Set(rows.map(({ number }) => number))] })
    .groupBy('quote.number')
    .getRawMany<{ number: string; last: number | string }>();
  const lastOf = new Map(last.map((row) => [row.number, Number(row.last)]));
  return rows.map((row) => ({
    id: row.id,
    commissionId: row.commission_id,
    clientId: row.client_id,
    number: row.number,
    edition: row.edition,
    clientName: row.client_name,
    title: row.title,
    issuedOn: row.issued_on,
    validUntil: row.valid_until ?? undefined,
    issuedAt: row.issued_at,
    total: Money.ofMinor(row.total, row.currency),
    sha256: row.sha256,
    laterEdition: (lastOf.get(row.number) ?? row.edition) > row.edition,
    answers: answers.get(row.id) ?? [],
  }));
};
