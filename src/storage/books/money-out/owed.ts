import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Money } from '../../../domain/kernel/money.js';
import { PurchaseRow } from '../../rows/cloth-room/purchase.row.js';
import { SupplierRow } from '../../rows/cloth-room/supplier.row.js';
import { MoneyOutRow } from '../../rows/money-out/money-out.row.js';
import { PaidOutRow } from '../../rows/money-out/paid-out.row.js';
import type { Reading } from '../../session.js';
import { sentBackSubject, supplierCredits } from './supplier-credits.js';

/** Something to be paid; below nought a credit, to be had. */
export type Owed = {
  /** `purchase/0190…`, `sent-back/0190…`, `outwork/0190…` or `money-out/0190…`. */
  readonly about: string;
  readonly to: string;
  readonly on: CalendarDate;
  readonly paperNumber: string;
  readonly amount: Money;
};

type Raw = { id: string; to: string; on: string; paper: string; amount: number | string; currency: string };

const owedOf = (kind: string, row: Raw): Owed => ({
  about: `${kind}/${row.id}`,
  to: row.to,
  on: row.on,
  paperNumber: row.paper,
  amount: Money.ofMinor(Number(row.amount), row.currency),
});

/** What is owed to a merchant. */
export type OwedToMerchant = Owed & { readonly toId: string };

/** Everything that is owed to merchants for cloth and trimmings, less what was sent back, oldest first. */
export const owedToMerchants = async (reading: Reading, limit = 500): Promise<OwedToMerchant[]> => {
  const rows = await reading.manager
    .createQueryBuilder(PurchaseRow, 'one')
    .innerJoin(SupplierRow, 'supplier', 'supplier.id = one.supplier_id')
    .leftJoin(PaidOutRow, 'paid', "paid.about = 'purchase/' || one.id")
    .select('one.id', 'id')
    .addSelect('supplier.id', 'to_id')
    .addSelect('supplier.name', 'to')
    .addSelect('one.bought_on', 'on')
    .addSelect('one.paper_number', 'paper')
    .addSelect('one.goods + one.freight + one.duty + one.tax', 'amount')
    .addSelect('one.currency', 'currency')
    .where('paid.id IS NULL')
    .andWhere('one.goods + one.freight + one.duty + one.tax > 0')
    .orderBy('one.bought_on')
    .addOrderBy('one.id')
    .limit(limit)
    .getRawMany<Raw & { to_id: string }>();
  const bought = rows.map((row) => ({ ...owedOf('purchase', row), toId: row.to_id }));
  const sentBack = (await supplierCredits.open(reading, limit)).map((credit) => ({
    about: sentBackSubject(credit.entryId),
    toId: credit.supplierId,
    to: credit.supplierName,
    on: credit.on,
    paperNumber: credit.paperNumber,
    amount: credit.amount.negated(),
  }));
  return [...bought, ...sentBack].toSorted((a, b) => a.on.localeCompare(b.on));
};

/** Bills that are not cloth, stand and are not paid, oldest first. */
export const owedBills = async ({ manager }: Reading, limit = 500): Promise<Owed[]> => {
  const rows = await manager
    .createQueryBuilder(MoneyOutRow, 'one')
    .leftJoin(PaidOutRow, 'paid', "paid.about = 'money-out/' || one.id")
    .leftJoin(MoneyOutRow, 'back', 'back.of_id = one.id')
    .select('one.id', 'id')
    .addSelect('one.payee', 'to')
    .addSelect('one.on_day', 'on')
    .addSelect('one.paper_number', 'paper')
    .addSelect('one.amount + one.tax', 'amount')
    .addSelect('one.currency', 'currency')
    .where('paid.id IS NULL')
    .andWhere('back.id IS NULL')
    .andWhere('one.of_id IS NULL')
    .orderBy('one.on_day')
    .addOrderBy('one.id')
    .limit(limit)
    .getRawMany<Raw>();
  return rows.map((row) => owedOf('money-out', row));
};
