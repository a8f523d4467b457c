import { type TimedWork, workedMinutes } from '../../../domain/bench/worked.js';
import { costSoFar, hourOnFrom, type MaterialUsed } from '../../../domain/commissions/landing/columns.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { hoursOf } from '../../../domain/kernel/minutes.js';
import { Money } from '../../../domain/kernel/money.js';
import { isOverhead } from '../../../domain/money-out/money-out.js';
import {
  budgetedOverhead,
  type OverheadStanding,
  overheadStanding,
} from '../../../domain/rates/overhead-standing.js';
import { grouped } from '../../../domain/stock/grouped.js';
import { StockEntryRow } from '../../rows/cloth-room/stock-entry.row.js';
import { keptIn, type Reading } from '../../session.js';
import { benchBook } from '../bench/bench-book.js';
import { sittingBook } from '../bench/sitting-book.js';
import { planBook } from '../plan-book.js';
import { ratesBook } from '../rates-book.js';
import { studioBook } from '../studio-book.js';
import { moneyOutBook } from './money-out-book.js';

/** Overhead of a calendar year so far, with what each pool took up. */
export type OverheadYear = OverheadStanding & {
  readonly from: CalendarDate;
  readonly to: CalendarDate;
  readonly byPool: ReadonlyMap<string, Money>;
};

/**
 * Overhead incurred this year against what the work took up; undefined while the studio has no rates.
 *
 * Incurred: bills of no garment, by their day. Absorbed: minutes on garments (and materials, where a pool goes by them) at the
 * rates of their day, labour rounded once for each person, mode and card. A sitting on a whole stage goes by the modes of its plan as it stands today.
 */
export const overheadOfYear = (reading: Reading, today: CalendarDate): Promise<OverheadYear | undefined> =>
  keptIn(reading, `overhead of the year to ${today}`, async () => {
    const cards = await ratesBook.all(reading);
    if (cards.length === 0) return undefined;
    const { currency } = (await studioBook.the(reading)).identity;
    const from = `${today.slice(0, 4)}-01-01`;
    const zero = Money.zero(currency);
    const byMaterial = cards.some(({ overhead }) => overhead.some(({ base }) => base === 'material-cost'));
    const worked = await workedBetween(reading, from, today);
    const used = byMaterial ? await usedBetween(reading, from, today, currency) : [];
    const column = costSoFar(worked, used, zero, hourOnFrom(cards));
    const bills = (await moneyOutBook.between(reading, from, today)).filter(isOverhead);
    return {
      ...overheadStanding({
        incurred: Money.sum(
          bills.map(({ amount }) => amount),
          currency,
        ),
        absorbed: column.overhead,
        budgeted: budgetedOverhead(cards, from, today, currency),
        hours: hoursOf(worked.reduce((sum, { minutes }) => sum.plus(minutes), new Decimal(0))),
      }),
      from,
      to: today,
      byPool: column.overheadByPool,
    };
  });

const workedBetween = async (
  reading: Reading,
  from: CalendarDate,
  to: CalendarDate,
): Promise<TimedWork[]> => {
  const worked = await sittingBook.byMode(reading, from, to);
  const byPlan = await benchBook.withoutMode(reading, from, to);
  for (const [garmentId, own] of grouped(byPlan, (entry) => entry.garmentId ?? ''))
    worked.push(...workedMinutes(own, await planBook.of(reading, garmentId)));
  return worked;
};

const OF_A_GARMENT = ['issue', 'waste', 'return', 'offcut', 'reversal'];

/** What went from the cloth room into garments in a span, less what came back. */
export const usedBetween = async (
  { manager }: Reading,
  from: CalendarDate,
  to: CalendarDate,
  currency: string,
): Promise<MaterialUsed[]> => {
  const rows = await manager
    .createQueryBuilder(StockEntryRow, 'entry')
    .where('entry.garment_id IS NOT NULL')
    .andWhere('entry.on_day >= :from AND entry.on_day <= :to', { from, to })
    .andWhere('entry.kind IN (:...kinds)', { kinds: OF_A_GARMENT })
    .getMany();
  return rows.map((row) => ({ on: row.on_day, cost: Money.ofMinor(-row.cost, currency) }));
};
