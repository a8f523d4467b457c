import type { InvoiceLabels } from './invoice-labels.js';
import type { Letterhead } from './letterhead.js';
import type { Priced, QuoteTax, Said } from './quote-sheet.js';

/** One line of an invoice in words. */
export type InvoiceSheetLine = {
  /** BT-126. */
  readonly number: string;
  readonly name: string;
  readonly description: string;
  /** What was taken off or put on this line, with why. */
  readonly details: readonly string[];
  /** With its unit, where it is not pieces: "2 hours". */
  readonly quantity: string;
  /** BT-146, before tax. */
  readonly price: string;
  /** "23 %", or the category in words. */
  readonly tax: string;
  /** BT-131, before tax. */
  readonly net: string;
};

/**
 * An invoice, credit note or deposit invoice as words: everything EN 16931 and VAT Directive art. 226 ask for. Nothing is
 * worked out while it is drawn; '' and [] are left out, null sections too.
 */
export type InvoiceSheet = {
  /** BCP 47. */
  readonly language: string;
  readonly labels: InvoiceLabels;
  readonly letterhead: Letterhead;
  /** "Preview, not issued": stands across the head; '' once issued. */
  readonly notice: string;
  /** "Deposit invoice", "Credit note" … */
  readonly title: string;
  readonly number: string;
  readonly client: {
    readonly name: string;
    readonly address: readonly string[];
    /** Tax number, client code. */
    readonly numbers: readonly Said[];
  };
  /** Number, date, day due, day of supply, order number. */
  readonly particulars: readonly Said[];
  readonly subject: string;
  /** Which earlier invoices it deducts or mends. */
  readonly references: readonly string[];
  readonly opening: string;
  /** "Euro": stands in the head of the column of amounts. */
  readonly currency: string;
  readonly lines: readonly InvoiceSheetLine[];
  /** What leads to the total before tax. */
  readonly sums: readonly Priced[];
  readonly taxes: readonly QuoteTax[];
  /** BT-112. */
  readonly total: Priced;
  /** Paid before, rounding. */
  readonly after: readonly Priced[];
  /** BT-115. */
  readonly due: Priced;
  /** Where a minor unit went. */
  readonly notes: readonly string[];
  readonly payment: {
    readonly words: string;
    readonly pairs: readonly Said[];
    /** The payment code as our own SVG; '' without one. */
    readonly code: string;
    readonly codeWords: string;
  } | null;
  readonly terms: readonly string[];
};
