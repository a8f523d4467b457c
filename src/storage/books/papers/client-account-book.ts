import type { CurrencyCode } from '../../../domain/kernel/currency.js';
import { Money } from '../../../domain/kernel/money.js';
import {
  type Account,
  type AccountHistory,
  type AccountPaper,
  type Allocated,
  accountOf,
  type Payment,
} from '../../../domain/papers/settlement/account.js';
import { inParts } from '../../in-parts.js';
import { ClientRow } from '../../rows/clients/client.row.js';
import { CommissionRow } from '../../rows/commissions/commission.row.js';
import { GarmentRow } from '../../rows/commissions/garment.row.js';
import { InvoiceRow } from '../../rows/papers/invoice.row.js';
import { InvoiceCiteRow } from '../../rows/papers/invoice-cite.row.js';
import { AllocationRow } from '../../rows/payments/allocation.row.js';
import { PaymentRow } from '../../rows/payments/payment.row.js';
import { besides, keptIn, type Reading } from '../../session.js';
import { studioBook } from '../studio-book.js';

/** A client's account with what it was worked out from. */
export type ClientAccount = {
  readonly clientId: string;
  readonly clientName: string;
  readonly clientCode: string;
  readonly history: AccountHistory;
  readonly account: Account;
  /** The kinds of the papers, such as `deposit-invoice`, by key. */
  readonly kinds: ReadonlyMap<string, string>;
};

/** A commission as payments name it. */
export type PaidCommission = { readonly id: string; readonly number: string; readonly title: string };

const PAPER_COLUMNS = [
  'id',
  'kind',
  'number',
  'issued_on',
  'due_on',
  'commission_id',
  'client_id',
  'currency',
  'total',
];

/** What each client owes and is owed. Nothing is kept here: it is worked out of papers and payments each time. */
export const clientAccountBook = {
  /** One client's account. */
  async of(reading: Reading, clientId: string): Promise<ClientAccount> {
    const client = await reading.manager.findOneByOrFail(ClientRow, { id: clientId });
    const [found] = await accounts(reading, [client]);
    return found!;
  },

  /** The commissions a client pays for or has ordered, newest first. */
  async commissionsOf(reading: Reading, clientId: string): Promise<PaidCommission[]> {
    const rows = await reading.manager.find(CommissionRow, {
      select: { id: true, number: true, title: true },
      where: [{ payer_id: clientId }, { client_id: clientId }],
      order: { id: 'DESC' },
      take: 200,
    });
    return rows.map(({ id, number, title }) => ({ id, number, title }));
  },

  /** The keys of some commissions' garments, by commission. */
  async garmentsOf(reading: Reading, commissionIds: readonly string[]): Promise<Map<string, string[]>> {
    const found = new Map<string, string[]>(commissionIds.map((id) => [id, []]));
    for (const some of inParts(commissionIds, 500)) {
      const rows = await reading.manager
        .createQueryBuilder(GarmentRow, 'garment')
        .select(['garment.id', 'garment.commission_id'])
        .where('garment.commission_id IN (:...ids)', { ids: some })
        .orderBy('garment.place')
        .getMany();
      for (const { id, commission_id } of rows) found.get(commission_id)?.push(id);
    }
    return found;
  },

  /** The accounts of every client that ever had a paper or a payment, by name. */
  async all(reading: Reading): Promise<ClientAccount[]> {
    return keptIn(reading, 'client accounts', async () => {
      const moved = await reading.manager
        .createQueryBuilder(ClientRow, 'client')
        .where('client.id IN (SELECT client_id FROM invoice)')
        .orWhere('client.id IN (SELECT client_id FROM payment)')
        .orderBy('client.folded')
        .addOrderBy('client.id')
        .getMany();
      return accounts(reading, moved, true);
    });
  },
};

const currencyOf = async (reading: Reading): Promise<CurrencyCode> =>
  (await studioBook.the(reading)).identity.currency;

const grouped = <T>(items: readonly T[], key: (item: T) => string): Map<string, T[]> => {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(key(item));
    if (group) group.push(item);
    else groups.set(key(item), [item]);
  }
  return groups;
};

/** @param everybody reads whole tables instead of asking for each client */
const accounts = async (
  reading: Reading,
  clients: readonly ClientRow[],
  everybody = false,
): Promise<ClientAccount[]> => {
  const { manager } = reading;
  const currency = await currencyOf(reading);
  const theirs = (alias: string): [string, Record<string, unknown>] =>
    everybody ? ['1 = 1', {}] : [`${alias}.client_id = :client`, { client: clients[0]?.id }];
  const [invoices, cites, paid, given] = await besides(
    reading,
    () =>
      manager
        .createQueryBuilder(InvoiceRow, 'invoice')
        .select(PAPER_COLUMNS.map((column) => `invoice.${column}`))
        .where(...theirs('invoice'))
        .andWhere("invoice.kind <> 'receipt'")
        .andWhere('invoice.currency = :currency', { currency })
        .orderBy('invoice.id')
        .getMany(),
    () =>
      manager
        .createQueryBuilder(InvoiceCiteRow, 'cite')
        .innerJoin(InvoiceRow, 'invoice', 'invoice.id = cite.invoice_id')
        .where(...theirs('invoice'))
        .andWhere("invoice.kind = 'credit-note'")
        .orderBy('cite.id')
        .getMany(),
    () =>
      manager
        .createQueryBuilder(PaymentRow, 'payment')
        .where(...theirs('payment'))
        .andWhere('payment.currency = :currency', { currency })
        .orderBy('payment.id')
        .getMany(),
    () =>
      manager
        .createQueryBuilder(AllocationRow, 'allocation')
        .where(...theirs('allocation'))
        .orderBy('allocation.id')
        .getMany(),
  );
  const mends = grouped(cites, ({ invoice_id }) => invoice_id);
  const byClient = {
    invoices: grouped(invoices, ({ client_id }) => client_id),
    paid: grouped(paid, ({ client_id }) => client_id),
    given: grouped(given, ({ client_id }) => client_id),
  };
  return clients.map(({ id, name, code }) => {
    const rows = byClient.invoices.get(id) ?? [];
    const history: AccountHistory = {
      papers: rows.map((row) =>
        paperOf(
          row,
          (mends.get(row.id) ?? []).map(({ cited_id }) => cited_id),
        ),
      ),
      payments: paymentsOf(byClient.paid.get(id) ?? []),
      allocations: (byClient.given.get(id) ?? []).map((row) => allocatedOf(row, currency)),
    };
    return {
      clientId: id,
      clientName: name,
      clientCode: code,
      history,
      account: accountOf(history, currency),
      kinds: new Map(rows.map((row) => [row.id, row.kind])),
    };
  });
};

const paperOf = (row: InvoiceRow, mends: readonly string[]): AccountPaper => ({
  id: row.id,
  kind: row.kind === 'credit-note' ? 'credit-note' : 'invoice',
  number: row.number,
  issued: row.issued_on,
  due: row.due_on ?? row.issued_on,
  commissionId: row.commission_id ?? undefined,
  total: Money.ofMinor(row.total, row.currency),
  mends,
});

const paymentsOf = (rows: readonly PaymentRow[]): Payment[] => {
  const reversed = new Map(
    rows.flatMap(({ kind, of_id, on_day }) =>
      kind === 'reversal' && of_id !== null ? [[of_id, on_day] as const] : [],
    ),
  );
  return rows
    .filter(({ kind }) => kind !== 'reversal')
    .map((row) => ({
      id: row.id,
      kind: row.kind as Payment['kind'],
      on: row.on_day,
      amount: Money.ofMinor(row.amount, row.currency),
      commissionId: row.commission_id ?? undefined,
      reversedOn: reversed.get(row.id),
    }));
};

const allocatedOf = (row: AllocationRow, currency: CurrencyCode): Allocated => ({
  from: row.payment_id,
  to: row.invoice_id ?? row.refund_id ?? '',
  amount: Money.ofMinor(row.amount, currency),
});
