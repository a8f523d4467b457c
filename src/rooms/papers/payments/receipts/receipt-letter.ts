import type { Client } from '../../../../domain/clients/client.js';
import type { Studio } from '../../../../domain/house/studio.js';
import type { CalendarDate } from '../../../../domain/kernel/calendar-date.js';
import { Money } from '../../../../domain/kernel/money.js';
import type { AccountLetter, LetterCell } from '../../../../printing/papers/account-letter.js';
import type { StudioMark } from '../../../../storage/books/house/mark-book.js';
import type { KeptPayment } from '../../../../storage/books/papers/payment-book.js';
import { envelopeOf, letterheadOf } from '../../../../web/papers/house-on-paper.js';
import { letterManner } from '../letter-manner.js';

/** What a receipt tells: the payment, and which papers it went to. */
export type ToReceipt = {
  readonly studio: Studio;
  readonly client: Client;
  readonly mark: StudioMark | undefined;
  readonly payment: KeptPayment;
  readonly went: readonly { readonly number: string; readonly amount: Money }[];
  readonly number: string;
  readonly on: CalendarDate;
};

const words = (text: string): LetterCell => ({ text, figure: false });
const figure = (text: string): LetterCell => ({ text, figure: true });

/** A receipt in words. */
export const receiptLetter = ({
  studio,
  client,
  mark,
  payment,
  went,
  number,
  on,
}: ToReceipt): AccountLetter => {
  const { language, said, money, date } = letterManner(studio, client);
  const sum = Money.sum(
    went.map(({ amount }) => amount),
    payment.amount.currency,
  );
  const held = payment.amount.minus(sum);
  const row = (text: string, amount: Money, total = false) => ({
    cells: [words(text), figure(money(amount))],
    total,
  });
  return {
    language,
    letterhead: letterheadOf(studio, { language, mark }),
    title: said.receipt.title,
    number,
    to: said.to,
    client: { name: client.name, address: envelopeOf(client) },
    particulars: [
      { label: said.number, words: number },
      { label: said.date, words: date(on) },
      { label: said.receipt.received, words: date(payment.on) },
      { label: said.receipt.how, words: payment.how },
    ],
    opening: [said.receipt.opening(client.name, money(payment.amount))],
    table: {
      columns: [words(said.receipt.towards), figure(said.receipt.amount)],
      rows: [
        ...went.map((part) => row(part.number, part.amount)),
        ...(held.isZero() ? [] : [row(said.receipt.onAccount, held)]),
        row(said.receipt.total, payment.amount, true),
      ],
    },
    pairs: [],
    closing: [],
  };
};
