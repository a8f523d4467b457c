import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { CurrencyCode } from '../../kernel/currency.js';
import type { Decimal } from '../../kernel/decimal.js';
import type { Money } from '../../kernel/money.js';
import type { QuantityUnit } from '../../kernel/quantity.js';
import type { TaxCategory } from '../tax/category.js';
import type { TaxTotals } from '../tax/tax-question.js';
import type { Buyer, Seller } from './party.js';

/**
 * What kinds of paper there are and their UNTDID 1001 code (BT-3). A quote and a receipt are no invoices and have none,
 * yet share the model.
 *
 * @see EN 16931-1 BT-3; UNTDID 1001 (UN/CEFACT)
 */
export const PAPER_KINDS = {
  quote: { code: undefined, words: 'Quote' },
  'deposit-invoice': { code: '386', words: 'Deposit invoice' },
  'part-invoice': { code: '326', words: 'Part invoice' },
  invoice: { code: '380', words: 'Invoice' },
  'final-invoice': { code: '380', words: 'Final invoice' },
  'credit-note': { code: '381', words: 'Credit note' },
  receipt: { code: undefined, words: 'Receipt' },
} as const;

export type PaperKind = keyof typeof PAPER_KINDS;

/** BG-27 or BG-28: an allowance (BT-136, BT-139) or charge (BT-141, BT-144) on one line. */
export type LineAllowance = { readonly 'BT-136': Money; readonly 'BT-139'?: string };
export type LineCharge = { readonly 'BT-141': Money; readonly 'BT-144'?: string };

/** BG-20: an allowance on the whole document, in one category and rate. */
export type DocumentAllowance = {
  readonly 'BT-92': Money;
  readonly 'BT-95': TaxCategory;
  readonly 'BT-96'?: Decimal;
  readonly 'BT-97'?: string;
};

/** BG-21: a charge on the whole document, in one category and rate. */
export type DocumentCharge = {
  readonly 'BT-99': Money;
  readonly 'BT-102': TaxCategory;
  readonly 'BT-103'?: Decimal;
  readonly 'BT-104'?: string;
};

/** BG-25: one line. */
export type PaperLine = {
  readonly 'BT-126': string;
  readonly 'BT-127'?: string;
  readonly 'BT-129': Decimal;
  /** The kernel's unit; exports write its UN/ECE Recommendation 20 code. */
  readonly 'BT-130': QuantityUnit;
  readonly 'BT-131': Money;
  readonly 'BG-27': readonly LineAllowance[];
  readonly 'BG-28': readonly LineCharge[];
  readonly 'BT-146': Decimal;
  readonly 'BT-149'?: Decimal;
  readonly 'BT-151': TaxCategory;
  /** Absent for category O (BR-O-05). */
  readonly 'BT-152'?: Decimal;
  readonly 'BT-153': string;
  readonly 'BT-154'?: string;
};

/** BG-23: one tax group. */
export type PaperTaxGroup = {
  readonly 'BT-116': Money;
  readonly 'BT-117': Money;
  readonly 'BT-118': TaxCategory;
  readonly 'BT-119'?: Decimal;
  readonly 'BT-120'?: string;
};

/** BG-16 with one account of BG-17. */
export type PaymentTerms = {
  /** UNTDID 4461: 30 credit transfer, 58 SEPA credit transfer, 10 cash, 48 card. */
  readonly 'BT-81'?: string;
  readonly 'BT-82'?: string;
  readonly 'BT-83'?: string;
  readonly 'BT-84'?: string;
  readonly 'BT-85'?: string;
  readonly 'BT-86'?: string;
};

/** BG-3: an earlier invoice this paper builds on. */
export type EarlierInvoice = { readonly 'BT-25': string; readonly 'BT-26'?: CalendarDate };

/** The head of a paper: everything that is written rather than worked out. */
export type PaperHead = {
  readonly kind: PaperKind;
  readonly 'BT-1'?: string;
  readonly 'BT-2'?: CalendarDate;
  readonly 'BT-5': CurrencyCode;
  readonly 'BT-7'?: CalendarDate;
  readonly 'BT-9'?: CalendarDate;
  readonly 'BT-10'?: string;
  readonly 'BT-13'?: string;
  readonly 'BT-20'?: string;
  readonly 'BT-22'?: string;
  readonly 'BG-3'?: readonly EarlierInvoice[];
  readonly 'BG-4': Seller;
  readonly 'BG-7': Buyer;
  readonly 'BT-72'?: CalendarDate;
  readonly 'BT-73'?: CalendarDate;
  readonly 'BT-74'?: CalendarDate;
  readonly 'BT-80'?: string;
  readonly 'BG-16'?: PaymentTerms;
};

/** A paper keyed by the business terms of EN 16931; totals (BG-22) come from the tax arithmetic only. */
export type Paper = PaperHead & {
  readonly 'BT-3'?: string;
  readonly 'BG-20': readonly DocumentAllowance[];
  readonly 'BG-21': readonly DocumentCharge[];
  readonly 'BG-22': TaxTotals;
  readonly 'BG-23': readonly PaperTaxGroup[];
  readonly 'BG-25': readonly PaperLine[];
  /** With tax promised, but not reached by a whole net; the page says where the unit went. */
  readonly unreached?: Money;
};
