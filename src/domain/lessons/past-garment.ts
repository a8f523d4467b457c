import type { CalendarDate } from '../kernel/calendar-date.js';
import type { Decimal } from '../kernel/decimal.js';

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

/** More hours than any one garment takes. */
export const MOST_HOURS = 10_000;
