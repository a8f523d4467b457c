import { foldForSearch } from '../../../domain/clients/client.js';
import type { CalendarDate, Instant } from '../../../domain/kernel/calendar-date.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import type { PaperKind } from '../../../domain/papers/model/paper.js';
import { InvoiceRow } from '../../rows/papers/invoice.row.js';
import { InvoiceCiteRow } from '../../rows/papers/invoice-cite.row.js';
import { InvoicePdfRow } from '../../rows/papers/invoice-pdf.row.js';
import type { Reading, Writing } from '../../session.js';
import type { PageOf } from '../client-book.js';

/** Every kind of paper this book keeps. */
export type InvoiceKind = Exclude<PaperKind, 'quote'>;

/** One issued paper as lists and accounts need it. */
export type ListedInvoice = {
  readonly id: string;
  /** None for a paper that belongs to no commission. */
  readonly commissionId: string | undefined;
  /** Who pays. */
  readonly clientId: string;
  readonly clientName: string;
  readonly title: string;
  readonly kind: InvoiceKind;
  readonly number: string;
  readonly issuedOn: CalendarDate;
  readonly dueOn: CalendarDate | undefined;
  readonly issuedAt: Instant;
  /** BT-110. */
  readonly tax: Money;
  /** BT-112 + BT-114: what it adds to what is owed; a credit note takes this off. Never negative on a credit note. */
  readonly total: Money;
  /** BT-115. */
  readonly payable: Money;
  readonly language: string;
  readonly sha256: string;
  /** The earlier papers it deducts or mends. */
  readonly cites: readonly string[];
};

/** One issued paper whole. */
export type IssuedInvoice = ListedInvoice & {
  /** JSON: see domain/papers/invoice and `paperOf` of invoice-text. */
  readonly document: string;
};

export type InvoiceToIssue = Omit<IssuedInvoice, 'id' | 'issuedAt'> & {
  readonly series: string;
  readonly pdf: Uint8Array;
  /** What else it is found by, such as the commission's number. */
  readonly foundBy: string;
};

const LISTED = [
  'id',
  'version',
  'commission_id',
  'client_id',
  'client_name',
  'title',
  'kind',
  'number',
  'issued_on',
  'due_on',
  'issued_at',
  'currency',
  'tax',
  'total',
  'payable',
  'language',
  'sha256',
] as const;
const columns = LISTED.map((column) => `invoice.${column}`);

const listed = (reading: Reading) =>
  reading.manager.createQueryBuilder(InvoiceRow, 'invoice').select(columns).orderBy('invoice.id', 'DESC');

/** The book of issued invoices, credit notes and receipts. They are added and read; nothing here changes one. */
export const invoiceBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<IssuedInvoice> {
    const paper = await this.maybe(reading, id);
    if (!paper) throw new NotFound('paper');
    return paper;
  },

  async maybe(reading: Reading, id: string): Promise<IssuedInvoice | undefined> {
    const row = await reading.manager.findOneBy(InvoiceRow, { id });
    if (!row) return undefined;
    const [paper] = await listedOf(reading, [row]);
    return { ...paper!, document: row.document };
  },

  async isThere(reading: Reading, id: string): Promise<boolean> {
    return reading.manager.existsBy(InvoiceRow, { id });
  },

  /** The bytes that went out. @throws NotFound */
  async pdf(reading: Reading, id: string): Promise<Buffer> {
    const row = await reading.manager.findOneBy(InvoicePdfRow, { id });
    if (!row) throw new NotFound('paper');
    return Buffer.from(row.bytes, 'base64');
  },

  /** A commission's issued papers, newest first. */
  async ofCommission(reading: Reading, commissionId: string): Promise<ListedInvoice[]> {
    const query = listed(reading).where('invoice.commission_id = :commissionId', { commissionId });
    return listedOf(reading, await query.getMany());
  },

  /** The same whole, oldest first: what a later paper is drafted on. */
  async wholeOfCommission(reading: Reading, commissionId: string): Promise<IssuedInvoice[]> {
    const rows = await reading.manager.find(InvoiceRow, {
      where: { commission_id: commissionId },
      order: { id: 'ASC' },
    });
    const papers = await listedOf(reading, rows);
    return papers.map((paper, place) => ({ ...paper, document: rows[place]!.document }));
  },

  /** A client's issued papers, newest first. */
  async ofClient(reading: Reading, clientId: string): Promise<ListedInvoice[]> {
    const query = listed(reading).where('invoice.client_id = :clientId', { clientId });
    return listedOf(reading, await query.getMany());
  },

  /** What was issued from one day to another, both included, oldest first. */
  async between(reading: Reading, from: CalendarDate, to: CalendarDate): Promise<ListedInvoice[]> {
    const query = listed(reading)
      .where('invoice.issued_on >= :from AND invoice.issued_on <= :to', { from, to })
      .orderBy('invoice.id', 'ASC');
    return listedOf(reading, await query.getMany());
  },

  /** Newest first, found by number, client, title or commission. @param after the last key of the page before */
  async find(reading: Reading, asked = '', limit = 20, after = ''): Promise<PageOf<ListedInvoice>> {
    const query = listed(reading);
    foldForSearch(asked)
      .split(' ')
      .filter((word) => word !== '')
      .slice(0, 8)
      .forEach((word, index) => {
        const pattern = `%${word.replace(/[\\%_]/g, '\\$&')}%`;
        query.andWhere(`invoice.folded LIKE :word${index} ESCAPE '\\'`, { [`word${index}`]: pattern });
      });
    if (after) query.andWhere('invoice.id < :after', { after });
    const rows = await query.take(limit + 1).getMany();
    return {
      items: await listedOf(reading, rows.slice(0, limit)),
      next: rows.length > limit ? rows[limit - 1]?.id : undefined,
    };
  },

  /** Papers that cite an earlier one: credit notes on it, later invoices that deduct it. Oldest first. */
  async citing(reading: Reading, id: string): Promise<ListedInvoice[]> {
    const cites = await reading.manager.findBy(InvoiceCiteRow, { cited_id: id });
    if (cites.length === 0) return [];
    const query = listed(reading)
      .where('invoice.id IN (:...ids)', { ids: cites.map(({ invoice_id }) => invoice_id) })
      .orderBy('invoice.id', 'ASC');
    return listedOf(reading, await query.getMany());
  },

  async isNumberTaken(reading: Reading, number: string): Promise<boolean> {
    return reading.manager.existsBy(InvoiceRow, { number });
  },

  /** Keeps a paper and its bytes for good. */
  async add(writing: Writing, paper: InvoiceToIssue): Promise<string> {
    const id = writing.newId();
    await writing.insertForGood(InvoiceRow, {
      id,
      commission_id: paper.commissionId ?? null,
      client_id: paper.clientId,
      client_name: paper.clientName,
      title: paper.title,
      kind: paper.kind,
      number: paper.number,
      series: paper.series,
      folded: foldForSearch([paper.number, paper.clientName, paper.title, paper.foundBy].join(' ')),
      issued_on: paper.issuedOn,
      due_on: paper.dueOn ?? null,
      issued_at: writing.at,
      currency: paper.total.currency,
      tax: paper.tax.minor,
      total: paper.total.minor,
      payable: paper.payable.minor,
      language: paper.language,
      document: paper.document,
      sha256: paper.sha256,
    });
    for (const cited of new Set(paper.cites))
      await writing.insertForGood(InvoiceCiteRow, {
        id: writing.newId(),
        invoice_id: id,
        cited_id: cited,
      });
    // Not through the act's history: it can never be undone, the history holds its SHA-256, and would double its size.
    await writing.manager.insert(InvoicePdfRow, {
      id,
      version: 1,
      bytes: Buffer.from(paper.pdf).toString('base64'),
    });
    return id;
  },
};

const listedOf = async (reading: Reading, rows: readonly InvoiceRow[]): Promise<ListedInvoice[]> => {
  if (rows.length === 0) return [];
  const cites = await reading.manager
    .createQueryBuilder(InvoiceCiteRow, 'cite')
    .where('cite.invoice_id IN (:...ids)', { ids: rows.map(({ id }) => id) })
    .orderBy('cite.id', 'ASC')
    .getMany();
  return rows.map((row) => ({
    id: row.id,
    commissionId: row.commission_id ?? undefined,
    clientId: row.client_id,
    clientName: row.client_name,
    title: row.title,
    kind: row.kind as InvoiceKind,
    number: row.number,
    issuedOn: row.issued_on,
    dueOn: row.due_on ?? undefined,
    issuedAt: row.issued_at,
    tax: Money.ofMinor(row.tax, row.currency),
    total: Money.ofMinor(row.total, row.currency),
    payable: Money.ofMinor(row.payable, row.currency),
    language: row.language,
    sha256: row.sha256,
    cites: cites.filter(({ invoice_id }) => invoice_id === row.id).map(({ cited_id }) => cited_id),
  }));
};
