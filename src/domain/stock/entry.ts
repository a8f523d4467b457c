import type { CalendarDate, Instant } from '../kernel/calendar-date.js';
import type { Decimal } from '../kernel/decimal.js';
import type { Money } from '../kernel/money.js';

/** Everything that can happen to stock, with its words. Entries are added, never changed. */
export const ENTRY_WORDS = {
  bought: 'Bought',
  'brought-in': 'Brought in',
  issue: 'Issued',
  return: 'Returned',
  waste: 'Wasted',
  offcut: 'Offcut kept',
  'measured-again': 'Measured again',
  'sent-back': 'Sent back to the supplier',
  'handed-back': 'Handed back to the client',
  reversal: 'Reversed',
} as const;
export type EntryKind = keyof typeof ENTRY_WORDS;

/** So much of one lot in (above 0) or out (below 0), with the value that went with it. */
export type EntryPart = { readonly lotId: string; readonly quantity: Decimal; readonly cost: Money };

/** One movement of one material. In is above 0, out below. */
export type StockEntry = {
  readonly id: string;
  readonly kind: EntryKind;
  readonly materialId: string;
  readonly on: CalendarDate;
  readonly at: Instant;
  readonly who: string;
  readonly quantity: Decimal;
  readonly cost: Money;
  readonly commissionId: string | undefined;
  readonly garmentId: string | undefined;
  readonly garmentName: string;
  /** The planned line it serves. */
  readonly lineId: string | undefined;
  readonly purchaseId: string | undefined;
  /** The entry it returns from, cuts off from or reverses. */
  readonly of: string | undefined;
  readonly reason: string;
  readonly parts: readonly EntryPart[];
};

/** Entries that give an issue back, in part or whole. */
export const GIVES_BACK: readonly EntryKind[] = ['return', 'offcut', 'reversal'];

/** Kinds that took something off the shelf, so that it can be given back. */
export const MAY_COME_BACK: readonly EntryKind[] = ['issue', 'waste'];
