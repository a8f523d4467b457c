import { STRUCK } from '../../domain/clients/strike-out.js';
import { InvoiceRow } from '../rows/papers/invoice.row.js';
import { InvoiceCiteRow } from '../rows/papers/invoice-cite.row.js';
import { InvoiceDraftRow } from '../rows/papers/invoice-draft.row.js';
import { InvoicePdfRow } from '../rows/papers/invoice-pdf.row.js';
import { IssuedQuoteRow } from '../rows/papers/issued-quote.row.js';
import { PaperSentRow } from '../rows/papers/paper-sent.row.js';
import { QuoteAnswerRow } from '../rows/papers/quote-answer.row.js';
import { QuoteDraftRow } from '../rows/papers/quote-draft.row.js';
import { QuotePdfRow } from '../rows/papers/quote-pdf.row.js';
import { AllocationRow } from '../rows/payments/allocation.row.js';
import { BankLineRow } from '../rows/payments/bank-line.row.js';
import { PaymentRow } from '../rows/payments/payment.row.js';
import { ReceiptRow } from '../rows/payments/receipt.row.js';
import { ReceiptPdfRow } from '../rows/payments/receipt-pdf.row.js';
import { ReminderRow } from '../rows/payments/reminder.row.js';
import { ReminderPdfRow } from '../rows/payments/reminder-pdf.row.js';
import { type Holding, holding } from './holding.js';

/**
 * Papers and payments of a client. An invoice, a credit note and a receipt stay as they were issued, with their data and
 * their bytes; an accepted quote keeps its bytes; every list shows the number alone.
 */
export const paperHoldings: readonly Holding[] = [
  holding<QuotePdfRow>({ row: QuotePdfRow, by: { id: 'openQuote' }, erased: 'goes' }),
  holding<QuoteDraftRow>({ row: QuoteDraftRow, by: { commission_id: 'commission' }, erased: 'goes' }),
  holding<QuoteAnswerRow>({
    row: QuoteAnswerRow,
    name: 'Answers to quotes',
    by: { quote_id: 'quote' },
    erased: () => ({ by_whom: STRUCK, words: '' }),
  }),
  holding<IssuedQuoteRow>({
    row: IssuedQuoteRow,
    name: 'Quotes',
    by: { id: 'quote' },
    erased: ({ number }) => ({ client_name: STRUCK, title: '', folded: number.toLowerCase() }),
    unsaid: ['costs', 'document'],
  }),
  holding<InvoiceDraftRow>({
    row: InvoiceDraftRow,
    by: { client_id: 'client', commission_id: 'commission' },
    erased: 'goes',
  }),
  holding<InvoicePdfRow>({ row: InvoicePdfRow, by: { id: 'invoice' }, erased: 'stays' }),
  holding<InvoiceCiteRow>({ row: InvoiceCiteRow, by: { invoice_id: 'invoice' }, erased: 'stays' }),
  holding<PaperSentRow>({
    row: PaperSentRow,
    name: 'Papers sent',
    by: { paper_id: 'invoice' },
    erased: () => ({ to_whom: STRUCK }),
  }),
  holding<InvoiceRow>({
    row: InvoiceRow,
    name: 'Invoices and credit notes',
    by: { client_id: 'client' },
    erased: ({ number }) => ({ client_name: STRUCK, title: '', folded: number.toLowerCase() }),
    frozen: ['document'],
    unsaid: ['document'],
  }),
  // No law wants a letter that reminds kept.
  holding<ReminderPdfRow>({ row: ReminderPdfRow, by: { id: 'reminder' }, erased: 'goes' }),
  holding<ReminderRow>({
    row: ReminderRow,
    name: 'Reminders',
    by: { client_id: 'client' },
    erased: 'goes',
    unsaid: ['document'],
  }),
  holding<ReceiptPdfRow>({ row: ReceiptPdfRow, by: {}, erased: 'stays' }),
  holding<ReceiptRow>({
    row: ReceiptRow,
    name: 'Receipts',
    by: { payment_id: 'payment' },
    erased: 'stays',
    unsaid: ['document'],
  }),
  holding<AllocationRow>({ row: AllocationRow, by: { client_id: 'client' }, erased: 'stays' }),
  holding<BankLineRow>({
    row: BankLineRow,
    name: 'Lines of the bank',
    by: { payment_id: 'payment' },
    erased: () => ({ payer: '', words: '' }),
  }),
  holding<PaymentRow>({
    row: PaymentRow,
    name: 'Payments',
    by: { client_id: 'client' },
    erased: () => ({ note: '' }),
  }),
];
