import { In } from 'typeorm';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Conflict, NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import type { MoneyOut, MoneyOutKind } from '../../../domain/money-out/money-out.js';
import { inParts } from '../../in-parts.js';
import { MoneyOutRow } from '../../rows/money-out/money-out.row.js';
import type { Reading, Writing } from '../../session.js';
import type { PageOf } from '../client-book.js';
import { studioBook } from '../studio-book.js';

export type MoneyOutWords = Omit<MoneyOut, 'id' | 'of' | 'reason' | 'writtenAt'>;

/** Money out that is not cloth. Entries are added and read; nothing here changes one. */
export const moneyOutBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<MoneyOut> {
    const row = await reading.manager.findOneBy(MoneyOutRow, { id });
    if (!row) throw new NotFound('bill');
    return moneyOutOf(row);
  },

  /** Newest first, reversals included. @param after the last key of the page before */
  async list(
    reading: Reading,
    limit = 30,
    after = '',
    where: { readonly kind?: string } = {},
  ): Promise<PageOf<MoneyOut>> {
    const query = reading.manager.createQueryBuilder(MoneyOutRow, 'one').orderBy('one.id', 'DESC');
    if (after) query.andWhere('one.id < :after', { after });
    if (where.kind) query.andWhere('one.kind = :kind', where);
    const rows = await query.take(limit + 1).getMany();
    return {
      items: rows.slice(0, limit).map(moneyOutOf),
      next: rows.length > limit ? rows[limit - 1]?.id : undefined,
    };
  },

  /** Of a span of days, oldest first, reversals included. */
  async between(reading: Reading, from: CalendarDate, to: CalendarDate): Promise<MoneyOut[]> {
    const rows = await reading.manager
      .createQueryBuilder(MoneyOutRow, 'one')
      .where('one.on_day >= :from AND one.on_day <= :to', { from, to })
      .orderBy('one.on_day')
      .addOrderBy('one.id')
      .getMany();
    return rows.map(moneyOutOf);
  },

  /** Direct expenses of a garment that stand: neither reversed nor reversals, oldest first. */
  async ofGarment(reading: Reading, garmentId: string): Promise<MoneyOut[]> {
    const rows = await reading.manager.find(MoneyOutRow, {
      where: { garment_id: garmentId },
      order: { on_day: 'ASC', id: 'ASC' },
    });
    return standing(rows.map(moneyOutOf));
  },

  /** Payments of outwork that stand, by ticket. */
  async ofTickets(reading: Reading, ticketIds: readonly string[]): Promise<ReadonlyMap<string, MoneyOut>> {
    const found: MoneyOut[] = [];
    for (const some of inParts(ticketIds, 500))
      found.push(
        ...(
          await reading.manager.find(MoneyOutRow, {
            where: { ticket_id: In(some) },
          })
        ).map(moneyOutOf),
      );
    return new Map(standing(found).flatMap((one) => (one.ticketId ? [[one.ticketId, one]] : [])));
  },

  /** The entries that reverse these, by the key of what they reverse. */
  async reversalsOf(reading: Reading, ids: readonly string[]): Promise<ReadonlyMap<string, MoneyOut>> {
    if (ids.length === 0) return new Map();
    const rows = await reading.manager.find(MoneyOutRow, { where: { of_id: In([...ids]) } });
    return new Map(rows.map((row) => [row.of_id ?? '', moneyOutOf(row)]));
  },

  /** Keeps a bill for good. */
  async add(writing: Writing, words: MoneyOutWords): Promise<MoneyOut> {
    return moneyOutOf(
      await writing.insertForGood(MoneyOutRow, {
        ...columnsOf(words),
        id: writing.newId(),
        of_id: null,
        reason: '',
        written_at: writing.at,
      }),
    );
  },

  /**
   * Takes a bill back by one of the same amount below nought, on the bill's own day, so that the year it counted in loses it.
   *
   * @throws Conflict when it was reversed before, or is a reversal itself
   */
  async reverse(writing: Writing, id: string, reason: string): Promise<MoneyOut> {
    const entry = await this.one(writing, id);
    if (entry.of) throw new Conflict('This takes another bill back; put the bill down anew.', 'is-reversal');
    if ((await this.reversalsOf(writing, [id])).size > 0)
      throw new Conflict('This bill was reversed already.', 'reversed-already');
    return moneyOutOf(
      await writing.insertForGood(MoneyOutRow, {
        ...columnsOf({ ...entry, amount: entry.amount.negated(), tax: entry.tax.negated() }),
        id: writing.newId(),
        of_id: id,
        reason,
        written_at: writing.at,
      }),
    );
  },
};

const standing = (entries: readonly MoneyOut[]): MoneyOut[] => {
  const reversed = new Set(entries.flatMap(({ of }) => of ?? []));
  return entries.filter(({ id, of }) => !of && !reversed.has(id));
};

/**
 * What was paid or is owed for a garment beside cloth and time: Σ its bills that stand.
 *
 * @returns each bill without the tax that comes back; the forecast and the reckoning take their sum
 */
export const expensesPaidFor = async (
  reading: Reading,
  garmentId: string,
): Promise<{ readonly total: Money; readonly bills: readonly MoneyOut[] }> => {
  const bills = await moneyOutBook.ofGarment(reading, garmentId);
  const currency = bills[0]?.amount.currency ?? (await studioBook.the(reading)).identity.currency;
  return {
    total: Money.sum(
      bills.map(({ amount }) => amount),
      currency,
    ),
    bills,
  };
};

const columnsOf = (
  words: MoneyOutWords,
): Omit<MoneyOutRow, 'id' | 'version' | 'of_id' | 'reason' | 'written_at'> => ({
  kind: words.kind,
  on_day: words.on,
  currency: words.amount.currency,
  amount: words.amount.minor,
  tax: words.tax.minor,
  payee: words.payee,
  paper_number: words.paperNumber,
  what: words.what,
  commission_id: words.commissionId ?? null,
  garment_id: words.garmentId ?? null,
  garment_name: words.garmentName,
  ticket_id: words.ticketId ?? null,
});

const moneyOutOf = (row: MoneyOutRow): MoneyOut => ({
  id: row.id,
  kind: row.kind as MoneyOutKind,
  on: row.on_day,
  amount: Money.ofMinor(row.amount, row.currency),
  tax: Money.ofMinor(row.tax, row.currency),
  payee: row.payee,
  paperNumber: row.paper_number,
  what: row.what,
  commissionId: row.commission_id ?? undefined,
  garmentId: row.garment_id ?? undefined,
  garmentName: row.garment_name,
  ticketId: row.ticket_id ?? undefined,
  of: row.of_id ?? undefined,
  reason: row.reason,
  writtenAt: row.written_at,
});
