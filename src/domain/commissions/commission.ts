import type { PricingChoices } from '../house/studio.js';
import type { CalendarDate } from '../kernel/calendar-date.js';
import type { Money } from '../kernel/money.js';

/** A commission holds 1 to 12 garments. */
export const MOST_GARMENTS = 12;

/** One client's order. Client and payer may be two people. */
export type Commission = {
  readonly id: string;
  readonly version: number;
  /** What people see: `C-2026-014`. */
  readonly number: string;
  readonly clientId: string;
  /** The client, where nobody else pays. */
  readonly payerId: string;
  readonly title: string;
  /** The client's own order number. */
  readonly orderNumber: string;
  readonly openedOn: CalendarDate;
  readonly wantedBy: CalendarDate | undefined;
  readonly notes: string;
  /** What its garments are priced by; begins as the studio's choices and is kept here. */
  readonly pricing: PricingChoices;
  /** Off the whole price before tax, shared over the garments. */
  readonly discount: Money;
};
