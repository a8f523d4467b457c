import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { CurrencyCode } from '../../kernel/currency.js';
import type { Decimal } from '../../kernel/decimal.js';
import type { Money } from '../../kernel/money.js';
import type { QuantityUnit } from '../../kernel/quantity.js';
import type { TaxCategory } from '../tax/category.js';
import type { PricesInclude } from '../tax/tax-question.js';

/** The kinds that are drafted here; a receipt is written when money comes in. */
export const DRAFTED_KINDS = [
  'deposit-invoice',
  'part-invoice',
  'invoice',
  'final-invoice',
  'credit-note',
] as const;
export type DraftedKind = (typeof DRAFTED_KINDS)[number];

/** One line of an invoice in the making; its words, quantity and price may be changed until it is issued. */
export type InvoiceLine = {
  /** What it came from: a garment's or option's key, `extra-3`, or '' for a line written by hand. */
  readonly ref: string;
  /** The garment it belongs to, or ''. */
  readonly garment: string;
  readonly name: string;
  readonly description: string;
  readonly quantity: Decimal;
  readonly unit: QuantityUnit;
  /** Before tax or with it, as `pricesInclude` says; nought is a courtesy. */
  readonly price: Decimal;
  readonly category: TaxCategory;
  readonly rate?: Decimal;
};

/** What comes off: nothing, the deposit of the garments on it, or every earlier invoice of the commission. */
export const DEDUCTS = ['nothing', 'their-deposit', 'all-earlier'] as const;
export type Deducts = (typeof DEDUCTS)[number];

/** How much of an issued invoice a credit note gives back. */
export const CREDITS = ['whole', 'lines', 'amount'] as const;
export type Credits = (typeof CREDITS)[number];

/** Everything chosen for an invoice or credit note; the rest follows from the house, the client and earlier papers. */
export type InvoiceChoices = {
  readonly kind: DraftedKind;
  readonly currency: CurrencyCode;
  readonly pricesInclude: PricesInclude;
  readonly lines: readonly InvoiceLine[];
  readonly discount: Money;
  readonly discountReason: string;
  readonly taxReasons: Partial<Record<TaxCategory, string>>;
  readonly deducts: Deducts;
  /** BT-113: received before, on account. */
  readonly prepaid: Money;
  /** BT-9; the house's days after issue when left out. */
  readonly due: CalendarDate | undefined;
  /** BT-72: the day of delivery or completion. */
  readonly supplied: CalendarDate | undefined;
  readonly orderNumber: string;
  readonly terms: string;
  readonly note: string;
  /** Only of a credit note. */
  readonly credits: Credits;
  /** BT-126 of the lines given back. */
  readonly creditLines: readonly string[];
  /** With tax. */
  readonly creditAmount: Money | undefined;
};
