import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { supplierCredit } from '../../../domain/money-out/supplier-credit.js';
import { LotRow } from '../../rows/cloth-room/lot.row.js';
import { PurchaseRow } from '../../rows/cloth-room/purchase.row.js';
import { StockEntryRow } from '../../rows/cloth-room/stock-entry.row.js';
import { StockPartRow } from '../../rows/cloth-room/stock-part.row.js';
import { SupplierRow } from '../../rows/cloth-room/supplier.row.js';
import { PaidOutRow } from '../../rows/money-out/paid-out.row.js';
import type { Reading } from '../../session.js';

export const sentBackSubject = (entryId: string): string => `sent-back/${entryId}`;

/** What a supplier owes for one movement of goods sent back. */
export type SupplierCredit = {
  readonly entryId: string;
  readonly supplierId: string;
  readonly supplierName: string;
  readonly on: CalendarDate;
  /** The paper the goods came with. */
  readonly paperNumber: string;
  /** Not negative. */
  readonly amount: Money;
  readonly isReversed: boolean;
  readonly isSettled: boolean;
};

type Raw = {
  id: string;
  on: string;
  supplier_id: string;
  supplier: string;
  paper: string;
  currency: string;
  goods: number | string;
  freight: number | string;
  duty: number | string;
  tax: number | string;
  price: string | null;
  quantity: string;
  back: string | null;
  paid: string | null;
};

const asked = ({ manager }: Reading) =>
  manager
    .createQueryBuilder(StockEntryRow, 'one')
    .innerJoin(PurchaseRow, 'bought', 'bought.id = one.purchase_id')
    .innerJoin(SupplierRow, 'supplier', 'supplier.id = bought.supplier_id')
    .innerJoin(StockPartRow, 'part', 'part.entry_id = one.id')
    .innerJoin(LotRow, 'lot', 'lot.id = part.lot_id')
    .leftJoin(StockEntryRow, 'back', "back.of_id = one.id AND back.kind = 'reversal'")
    .leftJoin(PaidOutRow, 'paid', "paid.about = 'sent-back/' || one.id")
    .select('one.id', 'id')
    .addSelect('one.on_day', 'on')
    .addSelect('supplier.id', 'supplier_id')
    .addSelect('supplier.name', 'supplier')
    .addSelect('bought.paper_number', 'paper')
    .addSelect('bought.currency', 'currency')
    .addSelect('bought.goods', 'goods')
    .addSelect('bought.freight', 'freight')
    .addSelect('bought.duty', 'duty')
    .addSelect('bought.tax', 'tax')
    .addSelect('lot.unit_price', 'price')
    .addSelect('part.quantity', 'quantity')
    .addSelect('back.id', 'back')
    .addSelect('paid.id', 'paid')
    .where("one.kind = 'sent-back'");

/** One credit out of the rows of its parts. */
const creditOf = (rows: readonly [Raw, ...Raw[]]): SupplierCredit => {
  const [first] = rows;
  const money = (minor: number | string): Money => Money.ofMinor(Number(minor), first.currency);
  const back = rows.map(({ price, quantity }) => ({
    unitPrice: new Decimal(price ?? 0),
    quantity: new Decimal(quantity).negated(),
  }));
  return {
    entryId: first.id,
    supplierId: first.supplier_id,
    supplierName: first.supplier,
    on: first.on,
    paperNumber: first.paper,
    amount: supplierCredit(back, {
      goods: money(first.goods),
      freight: money(first.freight),
      duty: money(first.duty),
      tax: money(first.tax),
    }),
    isReversed: first.back !== null,
    isSettled: first.paid !== null,
  };
};

/** What suppliers owe for goods that were sent back. Reckoned from the movements; nothing of it is kept twice. */
export const supplierCredits = {
  /** Those that stand and are not settled, oldest first; none of nought. */
  async open(reading: Reading, limit = 500): Promise<SupplierCredit[]> {
    const rows = await asked(reading)
      .andWhere('paid.id IS NULL')
      .andWhere('back.id IS NULL')
      .orderBy('one.on_day')
      .addOrderBy('one.id')
      .limit(limit)
      .getRawMany<Raw>();
    const byEntry = new Map<string, [Raw, ...Raw[]]>();
    for (const row of rows) {
      const own = byEntry.get(row.id);
      if (own) own.push(row);
      else byEntry.set(row.id, [row]);
    }
    return [...byEntry.values()].map(creditOf).filter(({ amount }) => !amount.isZero());
  },

  /** @returns nothing where the movement sent nothing back to a supplier */
  async find(reading: Reading, entryId: string): Promise<SupplierCredit | undefined> {
    const [first, ...rest] = await asked(reading)
      .andWhere('one.id = :entryId', { entryId })
      .getRawMany<Raw>();
    return first && creditOf([first, ...rest]);
  },

  /** @throws NotFound */
  async one(reading: Reading, entryId: string): Promise<SupplierCredit> {
    const found = await this.find(reading, entryId);
    if (!found) throw new NotFound('credit');
    return found;
  },
};
