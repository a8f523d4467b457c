import type { Decimal } from '../kernel/decimal.js';
import type { Money } from '../kernel/money.js';

/** Work over the counter and alterations, or making up a client's own cloth. */
export const PRICE_LIST_SORTS = ['counter', 'make-and-trim'] as const;
export type PriceListSort = (typeof PRICE_LIST_SORTS)[number];

/** One line of the house price list; its price follows today's hour unless it was put by hand. */
export type PriceListLine = {
  readonly id: string;
  readonly version: number;
  readonly sort: PriceListSort;
  readonly name: string;
  readonly hours: Decimal;
  readonly trimmings: Money | undefined;
  /** Put by hand; stands whatever the hour costs. */
  readonly ownPrice: Money | undefined;
  /** The known operation or the garment type it was taken from. */
  readonly takenFrom: string | undefined;
  readonly fromStartingValues: boolean;
};
