import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { CurrencyCode } from '../../kernel/currency.js';
import { Money } from '../../kernel/money.js';
import type { AccountHistory } from './account.js';

export type StatementKind =
  | 'invoice'
  | 'credit-note'
  | 'payment'
  | 'refund'
  | 'payment-reversed'
  | 'refund-reversed';

/** One line of a statement. */
export type StatementEntry = {
  readonly on: CalendarDate;
  readonly kind: StatementKind;
  /** Of the paper or the payment. */
  readonly id: string;
  /** A paper's number; '' for money. */
  readonly number: string;
  /** What it adds to what the client owes; below nought where it takes off. */
  readonly amount: Money;
  /** What the client owes after it. */
  readonly balance: Money;
};

export type Statement = {
  /** What was owed before the first day. */
  readonly before: Money;
  readonly entries: readonly StatementEntry[];
  /** What is owed at the end of the last day. */
  readonly after: Money;
};

/**
 * Every paper and every payment of a span of days, by date, with the balance after each. Papers stand before money of the
 * same day.
 *
 * @param span both days included; an open end takes in everything
 * @returns exact; `before` + Σ amounts = `after`, and over everything `after` is the account's balance
 * @see test/domain/papers/settlement/statement.test.ts
 */
export const statementOf = (
  history: AccountHistory,
  currency: CurrencyCode,
  span: { readonly from?: CalendarDate | undefined; readonly to?: CalendarDate | undefined } = {},
): Statement => {
  const moves: Omit<StatementEntry, 'balance'>[] = [
    ...history.papers.map(({ id, kind, number, issued, total }) => ({
      on: issued,
      kind,
      id,
      number,
      amount: kind === 'invoice' ? total : total.negated(),
    })),
    ...history.payments.map(({ id, kind, on, amount }) => ({
      on,
      kind,
      id,
      number: '',
      amount: kind === 'payment' ? amount.negated() : amount,
    })),
    ...history.payments.flatMap(({ id, kind, reversedOn, amount }) =>
      reversedOn === undefined
        ? []
        : [
            {
              on: reversedOn,
              kind: `${kind}-reversed` as StatementKind,
              id,
              number: '',
              amount: kind === 'payment' ? amount : amount.negated(),
            },
          ],
    ),
  ];
  // Stable: papers stay before payments, payments before their reversals, each in the order in which it was put down.
  moves.sort((a, b) => a.on.localeCompare(b.on));
  const { from = '', to = '9999-12-31' } = span;
  let balance = Money.zero(currency);
  let before = balance;
  const entries: StatementEntry[] = [];
  for (const move of moves) {
    if (move.on > to) break;
    balance = balance.plus(move.amount);
    if (move.on < from) before = balance;
    else entries.push({ ...move, balance });
  }
  return { before, entries, after: balance };
};
