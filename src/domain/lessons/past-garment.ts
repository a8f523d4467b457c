import type { CalendarDate } from '../kernel/calendar-date.js';
import type { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';

/** A garment made earlier, of which only totals are known. */
export type PastGarment = {
  readonly id: string;
  readonly version: number;
  readonly typeId: string;
  /** What it took, above 0. */
  readonly hours: Decimal;
  readonly plannedHours: Decimal | undefined;
  readonly finishedOn: CalendarDate | undefined;
  readonly note: string;
};

export const MOST_HOURS = 10_000;

/**
 * Hours of a whole garment, checked: above 0 and at most 10,000.
 *
 * @param field the field to name when they cannot be meant
 * @throws Invalid naming the field
 */
export const checkedHours = (hours: Decimal, field: string): Decimal => {
  if (hours.lte(0)) throw Invalid.field(field, 'A garment takes more than 0 hours.');
  if (hours.gt(MOST_HOURS)) throw Invalid.field(field, 'At most 10,000 hours for one garment.');
  return hours;
};
