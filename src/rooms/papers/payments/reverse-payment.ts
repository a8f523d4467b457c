import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { paymentBook } from '../../../storage/books/papers/payment-book.js';
import { bankBook } from '../../../storage/books/payments/bank-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { paymentSubject } from './take-payment.js';

/**
 * Takes a payment or refund back by another entry; both stay. Its papers are open again, and the bank line it came from too.
 *
 * @throws Conflict when it was reversed already
 */
export const reversePayment = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: { readonly on: CalendarDate; readonly reason: string },
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const payment = await paymentBook.one(writing, id);
    const reversal = await paymentBook.reverse(writing, payment, said);
    await bankBook.release(writing, id);
    const { locale } = (await studioBook.the(writing)).identity;
    const what = payment.kind === 'refund' ? 'the refund' : 'the payment';
    writing.says(
      `Reversed ${what} of ${moneyInWords(payment.amount, locale)}, ${payment.clientName}: ${said.reason}`,
      paymentSubject(id),
    );
    return reversal;
  });
