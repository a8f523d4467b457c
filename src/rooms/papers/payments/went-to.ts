import { Money } from '../../../domain/kernel/money.js';
import { clientAccountBook } from '../../../storage/books/papers/client-account-book.js';
import type { KeptPayment } from '../../../storage/books/papers/payment-book.js';
import type { Reading } from '../../../storage/session.js';

/** What of a payment went where, or of a refund came whence. */
export type Went = {
  /** None where it went to, or came from, another payment. */
  readonly paperId: string | undefined;
  readonly paymentId: string | undefined;
  readonly number: string;
  readonly amount: Money;
};

/** What money went to by now: entries that took others back are set off. */
export const wentTo = async (reading: Reading, payment: KeptPayment): Promise<Went[]> => {
  const { history } = await clientAccountBook.of(reading, payment.clientId);
  const sums = new Map<string, Money>();
  for (const { from, to, amount } of history.allocations) {
    const other = from === payment.id ? to : to === payment.id ? from : undefined;
    if (other !== undefined) sums.set(other, (sums.get(other) ?? Money.zero(amount.currency)).plus(amount));
  }
  return [...sums].flatMap(([other, amount]) => {
    if (amount.isZero()) return [];
    const paper = history.papers.find(({ id }) => id === other);
    return [
      paper
        ? { paperId: paper.id, paymentId: undefined, number: paper.number, amount }
        : { paperId: undefined, paymentId: other, number: '', amount },
    ];
  });
};

/** What of a payment went to nothing by now; nought for one that was reversed, and for money given back. */
export const stillHeld = ({ kind, amount, reversedBy }: KeptPayment, went: readonly Went[]): Money => {
  const { currency } = amount;
  if (kind !== 'payment' || reversedBy !== undefined) return Money.zero(currency);
  const gone = went.map((part) => part.amount);
  return amount.minus(Money.sum(gone, currency));
};
