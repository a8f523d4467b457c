import type { DraftedKind } from '../../domain/papers/invoice/invoice-choices.js';

/** The fixed words of an invoice. Amounts, dates and what people wrote are put in where a function asks for them. */
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

/** In English, the house's own tongue. */
export const ENGLISH_LABELS: InvoiceLabels = {
  titles: {
    'deposit-invoice': 'Deposit invoice',
    'part-invoice': 'Part invoice',
    invoice: 'Invoice',
    'final-invoice': 'Final invoice',
    'credit-note': 'Credit note',
  },
  to: 'To',
  number: 'Number',
  date: 'Date',
  due: 'Payable by',
  supplied: 'Delivered or done',
  order: 'Your order',
  clientTaxNumber: 'Tax number',
  clientCode: 'Client',
  columns: {
    number: 'No.',
    what: 'What for',
    quantity: 'Quantity',
    price: 'Price',
    tax: 'Tax',
    net: 'Before tax',
  },
  lines: 'Sum of the lines',
  allowances: 'Discount',
  charges: 'Charges',
  net: 'Total before tax',
  tax: 'Tax',
  taxOn: 'on',
  total: 'Total with tax',
  prepaid: 'Paid before',
  rounding: 'Rounding',
  toPay: 'To pay',
  credited: 'Given back',
  payment: 'How to pay',
  payBy: 'Please pay into this account, naming the number of the invoice.',
  account: 'Account',
  accountName: 'Name',
  bank: 'Bank',
  reference: 'Reference',
  code: 'For a banking app: this code holds the account, the amount and the reference.',
  terms: 'Terms',
  mends: 'Mends invoice',
  deducts: 'Earlier invoices taken off:',
  ofDate: 'of',
};
