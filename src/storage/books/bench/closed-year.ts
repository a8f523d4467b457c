import type { BenchEntry } from '../../../domain/bench/bench-entry.js';
import { standingEntries, type WorkedMinutes, workedMinutes } from '../../../domain/bench/worked.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { type FrozenReckoning, readReckoning } from '../../../domain/reckoning/frozen-reckoning.js';
import { grouped } from '../../../domain/stock/grouped.js';
import { GarmentRow } from '../../rows/commissions/garment.row.js';
import { GarmentMarkRow } from '../../rows/commissions/garment-mark.row.js';
import type { Reading } from '../../session.js';
import { planBook } from '../plan-book.js';
import { benchBook } from './bench-book.js';

/** A garment that was closed, with its frozen reckoning; none where it was closed before there were any. */
export type ClosedWith = {
  readonly garmentId: string;
  readonly typeId: string;
  readonly on: CalendarDate;
  readonly reckoning: FrozenReckoning | undefined;
};

/** Garments whose closing stands and is dated in a span, in the order of their days. */
export const closedBetween = async (
  { manager }: Reading,
  from: CalendarDate,
  to: CalendarDate,
): Promise<ClosedWith[]> => {
  const rows = await manager
    .createQueryBuilder(GarmentMarkRow, 'mark')
    .innerJoin(GarmentRow, 'garment', 'garment.id = mark.garment_id')
    .select('mark.garment_id', 'garmentId')
    .addSelect('garment.type_id', 'typeId')
    .addSelect('mark.on_day', 'on')
    .addSelect('mark.document', 'document')
    .where("mark.kind = 'closed' AND mark.of_id IS NULL")
    .andWhere('mark.on_day >= :from AND mark.on_day <= :to', { from, to })
    .andWhere(
      "mark.id NOT IN (SELECT back.of_id FROM garment_mark back WHERE back.kind = 'closed' AND back.of_id IS NOT NULL)",
    )
    .orderBy('mark.on_day')
    .addOrderBy('mark.id')
    .getRawMany<{ garmentId: string; typeId: string; on: string; document: string }>();
  return rows.map(({ document, ...one }) => ({ ...one, reckoning: readReckoning(document) }));
};

/** What was worked in a span: on garments minute by minute, and without one. */
export type WorkBetween = {
  readonly worked: readonly WorkedMinutes[];
  /** Minutes of `worked` that went into basting that is taken out again. */
  readonly basting: number;
  readonly away: readonly BenchEntry[];
};

/** A sitting on a whole stage goes by the modes of its plan as it stands today; what basting is, the plan says. */
export const workBetween = async (
  reading: Reading,
  from: CalendarDate,
  to: CalendarDate,
): Promise<WorkBetween> => {
  const entries = await benchBook.between(reading, from, to);
  const byGarment = grouped(
    entries.filter(({ garmentId }) => garmentId),
    ({ garmentId }) => garmentId ?? '',
  );
  const worked: WorkedMinutes[] = [];
  let basting = 0;
  for (const [garmentId, own] of byGarment) {
    const plan = await planBook.of(reading, garmentId);
    const isBasting = new Set(plan.filter((one) => one.basting).map(({ id }) => id));
    for (const piece of workedMinutes(own, plan)) {
      worked.push(piece);
      if (isBasting.has(piece.operationId ?? '')) basting += piece.minutes;
    }
  }
  const away = standingEntries(entries.filter(({ garmentId }) => !garmentId));
  return { worked, basting, away };
};
