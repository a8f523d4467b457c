import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { CurrencyCode } from '../../kernel/currency.js';
import { Money } from '../../kernel/money.js';
import { balanceOf, type Movement, type OpenInvoice } from './balance.js';

/** An issued paper as an account needs it. A receipt is none: it only says what a payment says. */
export type AccountPaper = {
  readonly id: string;
  readonly kind: 'invoice' | 'credit-note';
  readonly number: string;
  readonly issued: CalendarDate;
  readonly due: CalendarDate;
  readonly commissionId: string | undefined;
  /** BT-112 + BT-114, not negative on an invoice's usual day; a credit note takes it off. */
  readonly total: Money;
  /** Keys of the papers a credit note mends, in its order. */
  readonly mends: readonly string[];
};

/** Money that came in or was given back. The amount is above nought; a reversed one stays, and counts no more. */
export type Payment = {
  readonly id: string;
  readonly kind: 'payment' | 'refund';
  readonly on: CalendarDate;
  readonly amount: Money;
  /** Held for a commission when it was taken before its invoice: a payment on account. */
  readonly commissionId: string | undefined;
  readonly reversedOn: CalendarDate | undefined;
};

/**
 * One entry of what money went to: a payment to an invoice or to a refund, or a refund to an invoice that was credited
 * after it was paid. Negative when it takes an earlier one back.
 */
export type Allocated = {
  readonly from: string;
  readonly to: string;
  readonly amount: Money;
};

/** Everything that moves one client's account. */
export type AccountHistory = {
  readonly papers: readonly AccountPaper[];
  readonly payments: readonly Payment[];
  readonly allocations: readonly Allocated[];
};

export type PaperStanding = AccountPaper & {
  /** Σ credit notes that mend it. */
  readonly credited: Money;
  /** Σ payments on it, less what was given back on it. */
  readonly paid: Money;
  /** What is still to pay; below nought when it was credited after it was paid. */
  readonly open: Money;
};

export type PaymentStanding = Payment & {
  /** A payment: what went to no invoice yet. A refund: what no payment covers any more, since one was reversed. */
  readonly left: Money;
};

/** How a client stands, to the minor unit. */
export type Account = {
  readonly papers: readonly PaperStanding[];
  readonly payments: readonly PaymentStanding[];
  /** Σ issued − Σ credited − Σ paid + Σ given back. Below nought the studio owes the client. */
  readonly balance: Money;
  /** What the client is asked for: Σ of what is open, each above nought. */
  readonly owed: Money;
  /** What is held for the client: paid too much, paid on account, or credited after it was paid. */
  readonly credit: Money;
};

const above = (amount: Money): Money => (amount.isNegative() ? Money.zero(amount.currency) : amount);
const least = (one: Money, other: Money): Money => (one.compare(other) < 0 ? one : other);

/**
 * What each credit note takes off each invoice it mends: the first takes up to what it was issued for, then the next; what
 * none can take stands on the last.
 *
 * @returns by invoice; what mends nothing known stays with the credit note itself
 */
const creditsByPaper = (papers: readonly AccountPaper[], currency: CurrencyCode): Map<string, Money> => {
  const totals = new Map(papers.map((paper) => [paper.id, paper]));
  const taken = new Map<string, Money>();
  for (const note of papers) {
    if (note.kind !== 'credit-note') continue;
    const mended = note.mends.filter((id) => totals.get(id)?.kind === 'invoice');
    let rest = note.total;
    for (const [place, id] of mended.entries()) {
      const before = taken.get(id) ?? Money.zero(currency);
      const room = above(totals.get(id)!.total.minus(before));
      const part = place === mended.length - 1 ? rest : least(rest, room);
      taken.set(id, before.plus(part));
      rest = rest.minus(part);
    }
    if (mended.length === 0) taken.set(note.id, note.total);
  }
  return taken;
};

/** The movements of a history, for {@link balanceOf}: a reversed payment moved nothing. */
export const movementsOf = ({ papers, payments }: AccountHistory): Movement[] => [
  ...papers.map(
    ({ kind, total }): Movement => ({ kind: kind === 'invoice' ? 'issued' : 'credited', amount: total }),
  ),
  ...payments
    .filter(({ reversedOn }) => reversedOn === undefined)
    .map(({ kind, amount }): Movement => ({ kind: kind === 'payment' ? 'paid' : 'refunded', amount })),
];

/**
 * How a client stands: what is open on each paper, what is left of each payment, balance, debt and credit.
 *
 * balance = owed − credit, always.
 *
 * @param history of one client, or of one commission
 * @returns exact, in whole minor units of the currency
 * @throws Invalid when amounts are of several currencies
 * @see design 2-costing.md section 7; test/domain/papers/settlement/account.test.ts, any-history.test.ts
 */
export const accountOf = (history: AccountHistory, currency: CurrencyCode): Account => {
  const zero = Money.zero(currency);
  const given = new Map<string, Money>();
  const got = new Map<string, Money>();
  for (const { from, to, amount } of history.allocations) {
    given.set(from, (given.get(from) ?? zero).plus(amount));
    got.set(to, (got.get(to) ?? zero).plus(amount));
  }
  const refunds = new Set(history.payments.flatMap(({ id, kind }) => (kind === 'refund' ? [id] : [])));
  const back = new Map<string, Money>();
  for (const { from, to, amount } of history.allocations)
    if (refunds.has(from)) back.set(to, (back.get(to) ?? zero).plus(amount));
  const credits = creditsByPaper(history.papers, currency);
  const papers = history.papers.map((paper): PaperStanding => {
    const credited = credits.get(paper.id) ?? zero;
    const returned = back.get(paper.id) ?? zero;
    const paid = (got.get(paper.id) ?? zero).minus(returned).minus(returned);
    const issued = paper.kind === 'invoice' ? paper.total : zero;
    return { ...paper, credited, paid, open: issued.minus(credited).minus(paid) };
  });
  const payments = history.payments.map((payment): PaymentStanding => {
    if (payment.reversedOn !== undefined) return { ...payment, left: zero };
    const covered = payment.kind === 'refund' ? (got.get(payment.id) ?? zero) : zero;
    return { ...payment, left: payment.amount.minus(given.get(payment.id) ?? zero).minus(covered) };
  });
  const parts = [
    ...papers.map(({ open }) => open),
    ...payments.map(({ kind, left }) => (kind === 'refund' ? left : left.negated())),
  ];
  return {
    papers,
    payments,
    balance: balanceOf(movementsOf(history), currency),
    owed: Money.sum(parts.map(above), currency),
    credit: Money.sum(
      parts.map((part) => above(part.negated())),
      currency,
    ),
  };
};

/** What is still to pay, for ages and proposals; a refund that no payment covers any more is owed since its day. */
export const openOf = (account: Account): OpenInvoice[] => [
  ...account.papers
    .filter(({ open }) => open.minor > 0)
    .map(({ number, due, open }) => ({ number, due, open })),
  ...account.payments
    .filter(({ kind, left }) => kind === 'refund' && left.minor > 0)
    .map(({ on, left }) => ({ number: `Given back on ${on}`, due: on, open: left })),
];

/**
 * The part of a history that belongs to one commission, or to none: its papers, what was allocated to them, and payments
 * held for it as far as they went to no paper of another.
 *
 * The parts of a client's history add up to the client's balance.
 *
 * @returns Σ issued − Σ credited − Σ paid + Σ given back of the commission; exact
 * @see test/domain/papers/settlement/account.test.ts
 */
export const commissionBalance = (
  account: Account,
  commissionId: string | undefined,
  currency: CurrencyCode,
): Money =>
  Money.sum(
    [
      ...account.papers.filter((paper) => paper.commissionId === commissionId).map(({ open }) => open),
      ...account.payments
        .filter((payment) => payment.commissionId === commissionId)
        .map(({ kind, left }) => (kind === 'refund' ? left : left.negated())),
    ],
    currency,
  );
