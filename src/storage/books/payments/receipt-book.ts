import type { CalendarDate, Instant } from '../../../domain/kernel/calendar-date.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { ReceiptRow } from '../../rows/payments/receipt.row.js';
import { ReceiptPdfRow } from '../../rows/payments/receipt-pdf.row.js';
import type { Reading, Writing } from '../../session.js';

/** A receipt as it was written. */
export type Receipt = {
  readonly id: string;
  readonly paymentId: string;
  readonly number: string;
  readonly issuedOn: CalendarDate;
  readonly issuedAt: Instant;
  /** Its words, JSON. */
  readonly document: string;
  readonly sha256: string;
};

/** The book of receipts. They are added and read; nothing here changes one. */
export const receiptBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Receipt> {
    const row = await reading.manager.findOneBy(ReceiptRow, { id });
    if (!row) throw new NotFound('receipt');
    return receiptOf(row);
  },

  /** The receipt of a payment, if one was written. */
  async ofPayment(reading: Reading, paymentId: string): Promise<Receipt | undefined> {
    const row = await reading.manager.findOneBy(ReceiptRow, { payment_id: paymentId });
    return row ? receiptOf(row) : undefined;
  },

  /** The bytes that went out. @throws NotFound */
  async pdf(reading: Reading, id: string): Promise<Buffer> {
    const row = await reading.manager.findOneBy(ReceiptPdfRow, { id });
    if (!row) throw new NotFound('receipt');
    return Buffer.from(row.bytes, 'base64');
  },

  async isNumberTaken(reading: Reading, number: string): Promise<boolean> {
    return reading.manager.existsBy(ReceiptRow, { number });
  },

  /** Keeps a receipt and its bytes for good. */
  async add(writing: Writing, receipt: Omit<Receipt, 'id' | 'issuedAt'>, pdf: Uint8Array): Promise<string> {
    const { id } = await writing.insertForGood(ReceiptRow, {
      id: writing.newId(),
      payment_id: receipt.paymentId,
      number: receipt.number,
      issued_on: receipt.issuedOn,
      issued_at: writing.at,
      document: receipt.document,
      sha256: receipt.sha256,
    });
    // Not through the act's history: it can never be undone, the history holds its SHA-256, and would double its size.
    await writing.manager.insert(ReceiptPdfRow, {
      id,
      version: 1,
      bytes: Buffer.from(pdf).toString('base64'),
    });
    return id;
  },
};

const receiptOf = (row: ReceiptRow): Receipt => ({
  id: row.id,
  paymentId: row.payment_id,
  number: row.number,
  issuedOn: row.issued_on,
  issuedAt: row.issued_at,
  document: row.document,
  sha256: row.sha256,
});
