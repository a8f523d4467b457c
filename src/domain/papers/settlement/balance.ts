import { type CalendarDate, daysBetween } from '../../kernel/calendar-date.js';
import type { CurrencyCode } from '../../kernel/currency.js';
import { Invalid } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import type { Paper } from '../model/paper.js';

/** Something that moves a client's balance. Amounts are not negative; a refund is money given back. */
export type Movement = {
  readonly kind: 'issued' | 'credited' | 'paid' | 'refunded';
  readonly amount: Money;
};

/**
 * What an issued paper adds to what a client owes: BT-112 + BT-114. What was prepaid on it counts among the payments.
 *
 * @returns an amount not reduced by BT-113
 */
export const amountIssued = (paper: Paper): Money => paper['BG-22']['BT-112'].plus(paper['BG-22']['BT-114']);

/**
 * What a client owes: Σ issued − Σ credited − Σ paid + Σ refunded.
 *
 * @returns signed; below nought the studio owes the client
 * @see test/domain/papers/settlement.test.ts
 */
export const balanceOf = (movements: readonly Movement[], currency: CurrencyCode): Money =>
  Money.sum(
    movements.map(({ kind, amount }) =>
      kind === 'issued' || kind === 'refunded' ? amount : amount.negated(),
    ),
    currency,
  );

/** An invoice with what is still open on it. */
export type OpenInvoice = { readonly number: string; readonly due: CalendarDate; readonly open: Money };

export type Allocation = {
  readonly parts: readonly { readonly number: string; readonly amount: Money }[];
  /** Paid too much: stays with the client. */
  readonly over: Money;
};

/**
 * Proposes how a payment goes over open invoices: the one due first is settled first, ties in the order given.
 *
 * @param paid above nought
 * @throws Invalid when nothing, or less, was paid
 */
export const allocatePayment = (paid: Money, invoices: readonly OpenInvoice[]): Allocation => {
  if (paid.minor <= 0)
    throw Invalid.field('amount', 'A payment is more than nothing. A refund is written as one.');
  let left = paid;
  const parts: { number: string; amount: Money }[] = [];
  for (const { number, open } of [...invoices].sort((a, b) => a.due.localeCompare(b.due))) {
    if (left.isZero()) break;
    if (open.minor <= 0) continue;
    const amount = open.compare(left) < 0 ? open : left;
    parts.push({ number, amount });
    left = left.minus(amount);
  }
  return { parts, over: left };
};

/** How long money has been owed, in days after it was due. */
export const AGES = [
  'not yet due',
  '1 to 30 days',
  '31 to 60 days',
  '61 to 90 days',
  'over 90 days',
] as const;
export type Age = (typeof AGES)[number];

/** The age of what is open on a day. @param due the day it was to be paid by */
export const ageOf = (due: CalendarDate, today: CalendarDate): Age => {
  const days = daysBetween(due, today);
  if (days <= 0) return 'not yet due';
  if (days <= 30) return '1 to 30 days';
  if (days <= 60) return '31 to 60 days';
  return days <= 90 ? '61 to 90 days' : 'over 90 days';
};

/** What is owed, by age. @returns every age in order, nought included */
export const owedByAge = (
  invoices: readonly OpenInvoice[],
  today: CalendarDate,
  currency: CurrencyCode,
): { readonly age: Age; readonly amount: Money }[] =>
  AGES.map((age) => ({
    age,
    amount: Money.sum(
      invoices.filter((invoice) => ageOf(invoice.due, today) === age).map((invoice) => invoice.open),
      currency,
    ),
  }));
