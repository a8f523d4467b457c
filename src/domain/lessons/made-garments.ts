import { farOff } from '../estimating/far-off.js';
import type { CalendarDate } from '../kernel/calendar-date.js';
import { Decimal } from '../kernel/decimal.js';
import { hoursOf } from '../kernel/minutes.js';
import type { ClosedGarment } from './closed-garment.js';
import type { PastGarment } from './past-garment.js';

/** One garment the studio has made, wherever it is known from. */
export type MadeGarment = {
  readonly from: 'closed' | 'notebook';
  /** The garment's id, or the id of the line in the notebook. */
  readonly id: string;
  readonly commissionId: string | undefined;
  readonly typeId: string;
  readonly name: string;
  /** Above 0. */
  readonly hours: Decimal;
  readonly plannedHours: Decimal | undefined;
  readonly on: CalendarDate | undefined;
  /** So far from the others of its type that they do not follow it. */
  readonly isFarOff: boolean;
};

/**
 * Closed garments and totals out of the notebook as one list. Each counts as one garment, as in `garmentHours`. A closed garment's
 * hours leave own error and unplanned wishes out (mending is told as a share of its own); a notebook's total is taken as it was
 * written. Garments on which nothing was worked are left out.
 *
 * @param typeId the type
 * @returns oldest first; those without a day, first of all, in the order they were written down
 * @see farOff; test/domain/lessons/what-was-made.test.ts
 */
export const madeGarments = (
  typeId: string,
  closed: readonly ClosedGarment[],
  past: readonly PastGarment[],
): MadeGarment[] => {
  const all = [
    ...past.filter((one) => one.typeId === typeId).map(fromNotebook),
    ...closed.filter((one) => one.typeId === typeId && one.totals.actualMinutes > 0).map(fromClosed),
  ];
  const away = farOff(all.map(({ hours }) => hours.toNumber()));
  return all
    .map((one, place) => ({ ...one, isFarOff: away[place] ?? false }))
    .sort((a, b) => ((a.on ?? '') < (b.on ?? '') ? -1 : (a.on ?? '') > (b.on ?? '') ? 1 : 0));
};

type Made = Omit<MadeGarment, 'isFarOff'>;

const fromNotebook = ({ id, typeId, hours, plannedHours, finishedOn, note }: PastGarment): Made => ({
  from: 'notebook',
  id,
  commissionId: undefined,
  typeId,
  name: note,
  hours,
  plannedHours,
  on: finishedOn,
});

const fromClosed = ({ garmentId, commissionId, typeId, name, closedOn, totals }: ClosedGarment): Made => ({
  from: 'closed',
  id: garmentId,
  commissionId,
  typeId,
  name,
  hours: hoursOf(totals.actualMinutes),
  plannedHours: totals.plannedMinutes > 0 ? hoursOf(totals.plannedMinutes) : undefined,
  on: closedOn,
});
