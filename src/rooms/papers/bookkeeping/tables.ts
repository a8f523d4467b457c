import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Money } from '../../../domain/kernel/money.js';
import { PAPER_KINDS } from '../../../domain/papers/model/paper.js';
import { type CsvManner, csvOf } from '../../../printing/exchange/csv.js';
import { invoiceBook } from '../../../storage/books/papers/invoice-book.js';
import { paymentBook } from '../../../storage/books/papers/payment-book.js';
import type { Reading } from '../../../storage/session.js';

export type Period = { readonly from: CalendarDate; readonly to: CalendarDate };

/** A credit note takes off: its amounts stand below nought, so that a column adds up. */
const signed = (kind: string, amount: Money): Money => (kind === 'credit-note' ? amount.negated() : amount);

/** Every paper issued in a period. */
export const papersTable = async (
  reading: Reading,
  { from, to }: Period,
  manner: CsvManner,
): Promise<string> =>
  csvOf(
    [
      { heading: 'Number', cell: ({ number }) => number },
      { heading: 'Kind', cell: ({ kind }) => PAPER_KINDS[kind].words },
      { heading: 'Issued', cell: ({ issuedOn }) => issuedOn },
      { heading: 'Payable by', cell: ({ dueOn }) => dueOn },
      { heading: 'Client', cell: ({ clientName }) => clientName },
      { heading: 'Title', cell: ({ title }) => title },
      { heading: 'Currency', cell: ({ total }) => total.currency },
      { heading: 'Before tax', cell: ({ kind, total, tax }) => signed(kind, total.minus(tax)) },
      { heading: 'Tax', cell: ({ kind, tax }) => signed(kind, tax) },
      { heading: 'Total', cell: ({ kind, total }) => signed(kind, total) },
      { heading: 'SHA-256', cell: ({ sha256 }) => sha256 },
    ],
    await invoiceBook.between(reading, from, to),
    manner,
  );

/** Every payment, refund and reversal of a period. What left the house stands below nought. */
export const paymentsTable = async (
  reading: Reading,
  { from, to }: Period,
  manner: CsvManner,
): Promise<string> => {
  const payments = await paymentBook.between(reading, from, to);
  const reversed = new Map<string, boolean>();
  for (const { kind, of } of payments)
    if (kind === 'reversal' && of) reversed.set(of, (await paymentBook.one(reading, of)).kind === 'refund');
  return csvOf(
    [
      { heading: 'Day', cell: ({ on }) => on },
      { heading: 'Kind', cell: ({ kind }) => KINDS[kind] },
      { heading: 'Client', cell: ({ clientName }) => clientName },
      { heading: 'How', cell: ({ how }) => how },
      { heading: 'Remark', cell: ({ note }) => note },
      { heading: 'Currency', cell: ({ amount }) => amount.currency },
      {
        heading: 'Amount',
        cell: ({ kind, of, amount }) => {
          const cameIn = kind === 'payment' || (kind === 'reversal' && reversed.get(of ?? '') === true);
          return cameIn ? amount : amount.negated();
        },
      },
      { heading: 'Entry', cell: ({ id }) => id },
      { heading: 'Reverses', cell: ({ of }) => of },
    ],
    payments,
    manner,
  );
};

const KINDS = { payment: 'Payment', refund: 'Given back', reversal: 'Reversal' } as const;
