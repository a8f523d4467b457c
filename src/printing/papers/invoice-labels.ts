import type { DraftedKind } from '../../domain/papers/invoice/invoice-choices.js';

/** The fixed words of an invoice, filled by `invoiceLabels(language)` out of data/glossary/papers.tsv. Amounts, dates and what people wrote are put in where a function asks for them. */
export type InvoiceLabels = {
  readonly titles: Readonly<Record<DraftedKind, string>>;
  readonly to: string;
  readonly number: string;
  readonly date: string;
  readonly due: string;
  readonly supplied: string;
  readonly order: string;
  readonly clientTaxNumber: string;
  readonly clientCode: string;
  readonly columns: {
    readonly number: string;
    readonly what: string;
    readonly quantity: string;
    readonly price: string;
    readonly tax: string;
    readonly net: string;
  };
  readonly lines: string;
  readonly allowances: string;
  readonly charges: string;
  readonly net: string;
  readonly tax: string;
  readonly taxOn: string;
  readonly total: string;
  /** Where no tax is charged. */
  readonly totalUntaxed: string;
  readonly prepaid: string;
  readonly rounding: string;
  readonly toPay: string;
  readonly credited: string;
  readonly payment: string;
  readonly payBy: string;
  readonly account: string;
  readonly accountName: string;
  readonly bank: string;
  readonly reference: string;
  readonly code: string;
  readonly terms: string;
  readonly mends: string;
  readonly deducts: string;
  readonly ofDate: string;
};
