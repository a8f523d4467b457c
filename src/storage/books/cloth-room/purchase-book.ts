import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { PurchaseRow } from '../../rows/cloth-room/purchase.row.js';
import type { Reading, Writing } from '../../session.js';
import type { PageOf } from '../client-book.js';

/** One delivery; its lines are its lots. */
export type Purchase = {
  readonly id: string;
  readonly supplierId: string;
  readonly boughtOn: CalendarDate;
  readonly paperNumber: string;
  readonly orderNumber: string;
  readonly goods: Money;
  readonly freight: Money;
  readonly duty: Money;
  readonly tax: Money;
  readonly taxRecoverable: boolean;
  readonly sharedBy: 'value' | 'quantity';
  readonly notes: string;
};

/** What is to be paid: goods, freight, duty and tax. */
export const comesTo = ({ goods, freight, duty, tax }: Purchase): Money =>
  goods.plus(freight).plus(duty).plus(tax);

/** The book of purchases. They are added and read; nothing here changes one. */
export const purchaseBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Purchase> {
    const row = await reading.manager.findOneBy(PurchaseRow, { id });
    if (!row) throw new NotFound('purchase');
    return purchaseOf(row);
  },

  /** Newest first, of one supplier or all. @param after the last key of the page before */
  async list(reading: Reading, supplierId = '', limit = 30, after = ''): Promise<PageOf<Purchase>> {
    const query = reading.manager.createQueryBuilder(PurchaseRow, 'purchase').orderBy('purchase.id', 'DESC');
    if (supplierId) query.andWhere('purchase.supplier_id = :supplierId', { supplierId });
    if (after) query.andWhere('purchase.id < :after', { after });
    const rows = await query.take(limit + 1).getMany();
    return {
      items: rows.slice(0, limit).map(purchaseOf),
      next: rows.length > limit ? rows[limit - 1]?.id : undefined,
    };
  },

  /** Other deliveries of the same order, oldest first. */
  async ofOrder(reading: Reading, { id, supplierId, orderNumber }: Purchase): Promise<Purchase[]> {
    if (orderNumber === '') return [];
    const rows = await reading.manager.find(PurchaseRow, {
      where: { supplier_id: supplierId, order_number: orderNumber },
      order: { id: 'ASC' },
    });
    return rows.filter((row) => row.id !== id).map(purchaseOf);
  },

  /** Keeps a purchase for good. */
  async add(writing: Writing, words: Omit<Purchase, 'id'>): Promise<string> {
    const id = writing.newId();
    await writing.insertForGood(PurchaseRow, {
      id,
      supplier_id: words.supplierId,
      bought_on: words.boughtOn,
      paper_number: words.paperNumber,
      order_number: words.orderNumber,
      currency: words.goods.currency,
      goods: words.goods.minor,
      freight: words.freight.minor,
      duty: words.duty.minor,
      tax: words.tax.minor,
      tax_recoverable: words.taxRecoverable,
      shared_by: words.sharedBy,
      notes: words.notes,
      written_at: writing.at,
    });
    return id;
  },
};

const purchaseOf = (row: PurchaseRow): Purchase => {
  const money = (minor: number): Money => Money.ofMinor(minor, row.currency);
  return {
    id: row.id,
    supplierId: row.supplier_id,
    boughtOn: row.bought_on,
    paperNumber: row.paper_number,
    orderNumber: row.order_number,
    goods: money(row.goods),
    freight: money(row.freight),
    duty: money(row.duty),
    tax: money(row.tax),
    taxRecoverable: row.tax_recoverable,
    sharedBy: row.shared_by as 'value' | 'quantity',
    notes: row.notes,
  };
};
