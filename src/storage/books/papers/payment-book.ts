import type { CalendarDate, Instant } from '../../../domain/kernel/calendar-date.js';
import { Conflict, NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import {
  movedEntries,
  mustFit,
  type Part,
  refundEntries,
  takenBack,
} from '../../../domain/papers/settlement/allocating.js';
import { ClientRow } from '../../rows/clients/client.row.js';
import { PaymentRow } from '../../rows/payments/payment.row.js';
import type { Reading, Writing } from '../../session.js';
import type { PageOf } from '../client-book.js';
import { allocate } from '../payments/allocate.js';
import { clientAccountBook } from './client-account-book.js';

export type PaymentKind = 'payment' | 'refund' | 'reversal';

/** One payment, refund or reversal as it was put down. */
export type KeptPayment = {
  readonly id: string;
  readonly kind: PaymentKind;
  readonly clientId: string;
  readonly clientName: string;
  readonly commissionId: string | undefined;
  readonly on: CalendarDate;
  readonly amount: Money;
  readonly how: string;
  readonly note: string;
  /** What a reversal reverses. */
  readonly of: string | undefined;
  /** The reversal of it, if it was reversed. */
  readonly reversedBy: string | undefined;
  readonly writtenAt: Instant;
  readonly who: string;
};

/** What is said of money that came in or was given back. */
export type PaymentWords = {
  readonly clientId: string;
  readonly commissionId?: string | undefined;
  readonly on: CalendarDate;
  readonly amount: Money;
  readonly how: string;
  readonly note: string;
};

type Raw = PaymentRow & { client_name: string; reversed_by: string | null };

/** The book of payments: they are added and read. A wrong one is reversed by another; nothing here changes one. */
export const paymentBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<KeptPayment> {
    const [payment] = await payments(reading, (query) => query.where('payment.id = :id', { id }));
    if (!payment) throw new NotFound('payment');
    return payment;
  },

  /** Newest first, of everybody or of one client. @param after the last key of the page before */
  async list(
    reading: Reading,
    asked: { readonly clientId?: string | undefined; readonly after?: string; readonly limit?: number } = {},
  ): Promise<PageOf<KeptPayment>> {
    const { clientId, after = '', limit = 20 } = asked;
    const items = await payments(reading, (query) => {
      if (clientId) query.andWhere('payment.client_id = :clientId', { clientId });
      if (after) query.andWhere('payment.id < :after', { after });
      return query.orderBy('payment.id', 'DESC').limit(limit + 1);
    });
    return {
      items: items.slice(0, limit),
      next: items.length > limit ? items[limit - 1]?.id : undefined,
    };
  },

  /** What came in or went back from one day to another, both included, oldest first. */
  async between(reading: Reading, from: CalendarDate, to: CalendarDate): Promise<KeptPayment[]> {
    return payments(reading, (query) =>
      query
        .where('payment.on_day >= :from AND payment.on_day <= :to', { from, to })
        .orderBy('payment.on_day')
        .addOrderBy('payment.id'),
    );
  },

  /**
   * Takes a payment and puts its parts on papers; what is over stays with the client.
   *
   * @throws Invalid when a part does not fit what is open now
   */
  async take(writing: Writing, words: PaymentWords, parts: readonly Part[]): Promise<string> {
    const { account } = await clientAccountBook.of(writing, words.clientId);
    mustFit(account, words.amount, parts);
    const id = await keep(writing, 'payment', words);
    await allocate(
      writing,
      words.clientId,
      parts.map(({ to, amount }) => ({ from: id, to, amount })),
    );
    return id;
  },

  /** Gives back what is held for a client. @throws Invalid when less is held */
  async giveBack(writing: Writing, words: PaymentWords): Promise<string> {
    const { account } = await clientAccountBook.of(writing, words.clientId);
    // Checked before it is kept; the entries need the refund's key, which is then known.
    const entries = refundEntries(account, '', words.amount);
    const id = await keep(writing, 'refund', words);
    await allocate(
      writing,
      words.clientId,
      entries.map((entry) => ({ ...entry, from: entry.from || id, to: entry.to || id })),
      new Set([id]),
    );
    return id;
  },

  /** Puts a payment's money to other papers: earlier entries are taken back, never rubbed out. */
  async move(writing: Writing, payment: KeptPayment, parts: readonly Part[]): Promise<void> {
    const { account, history } = await clientAccountBook.of(writing, payment.clientId);
    const standing = account.payments.find(({ id }) => id === payment.id);
    if (!standing) throw new Conflict('Only a payment can be put to other papers.', 'not-standing');
    const entries = movedEntries(account, standing, history.allocations, parts);
    await allocate(writing, payment.clientId, entries);
  },

  /**
   * Reverses a payment or refund: both stay, and what it went to is open again.
   *
   * @throws Conflict when it was reversed already or is a reversal itself
   */
  async reverse(
    writing: Writing,
    payment: KeptPayment,
    said: { readonly on: CalendarDate; readonly reason: string },
  ): Promise<string> {
    if (payment.kind === 'reversal' || payment.reversedBy)
      throw new Conflict('This was reversed already.', 'already-reversed');
    const { history } = await clientAccountBook.of(writing, payment.clientId);
    const id = await keep(writing, 'reversal', { ...payment, on: said.on, note: said.reason }, payment.id);
    const refunds = new Set(history.payments.flatMap((one) => (one.kind === 'refund' ? [one.id] : [])));
    await allocate(writing, payment.clientId, takenBack(payment.id, history.allocations), refunds);
    return id;
  },
};

const keep = async (
  writing: Writing,
  kind: PaymentKind,
  words: PaymentWords,
  of: string | null = null,
): Promise<string> => {
  const { id } = await writing.insertForGood(PaymentRow, {
    id: writing.newId(),
    kind,
    client_id: words.clientId,
    commission_id: words.commissionId ?? null,
    on_day: words.on,
    amount: words.amount.minor,
    currency: words.amount.currency,
    how: words.how,
    note: words.note,
    of_id: of,
    written_at: writing.at,
    who: writing.visit.who.name,
  });
  return id;
};

type Query = ReturnType<typeof queryOf>;
const queryOf = (reading: Reading) =>
  reading.manager
    .createQueryBuilder(PaymentRow, 'payment')
    .innerJoin(ClientRow, 'client', 'client.id = payment.client_id')
    .leftJoin(PaymentRow, 'reversal', "reversal.of_id = payment.id AND reversal.kind = 'reversal'")
    .select('payment.id', 'id')
    .addSelect(
      [
        'kind',
        'client_id',
        'commission_id',
        'on_day',
        'amount',
        'currency',
        'how',
        'note',
        'of_id',
        'written_at',
        'who',
      ].map((column) => `payment.${column} AS ${column}`),
    )
    .addSelect('client.name', 'client_name')
    .addSelect('reversal.id', 'reversed_by');

const payments = async (reading: Reading, ask: (query: Query) => Query): Promise<KeptPayment[]> => {
  const rows = await ask(queryOf(reading)).getRawMany<Raw>();
  return rows.map((row) => ({
    id: row.id,
    kind: row.kind as PaymentKind,
    clientId: row.client_id,
    clientName: row.client_name,
    commissionId: row.commission_id ?? undefined,
    on: row.on_day,
    // PostgreSQL answers a raw bigint as text.
    amount: Money.ofMinor(Number(row.amount), row.currency),
    how: row.how,
    note: row.note,
    of: row.of_id ?? undefined,
    reversedBy: row.reversed_by ?? undefined,
    writtenAt: row.written_at,
    who: row.who,
  }));
};
