import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { QuantityUnit } from '../../../domain/kernel/quantity.js';
import type { DraftWords } from '../../../domain/papers/invoice/draft-invoice.js';
import type { DeductionWords } from '../../../domain/papers/settlement/deductions.js';
import type { InvoiceLabels } from '../invoice-labels.js';
import { paperWords } from './paper-words.js';

/** The fixed words of an invoice in a language. */
export const invoiceLabels = (language: string): InvoiceLabels => {
  const words = paperWords(language);
  const say = (key: string): string => words.say(`invoice.${key}`);
  return {
    titles: {
      'deposit-invoice': say('title.deposit-invoice'),
      'part-invoice': say('title.part-invoice'),
      invoice: say('title.invoice'),
      'final-invoice': say('title.final-invoice'),
      'credit-note': say('title.credit-note'),
    },
    to: say('to'),
    number: say('number'),
    date: say('date'),
    due: say('due'),
    supplied: say('supplied'),
    order: say('order'),
    clientTaxNumber: say('client-tax-number'),
    clientCode: say('client-code'),
    columns: {
      number: say('column.number'),
      what: say('column.what'),
      quantity: say('column.quantity'),
      price: say('column.price'),
      tax: say('column.tax'),
      net: say('column.net'),
    },
    lines: say('lines'),
    allowances: say('allowances'),
    charges: say('charges'),
    net: say('net'),
    tax: say('tax'),
    taxOn: say('tax-on'),
    total: say('total'),
    totalUntaxed: say('total-untaxed'),
    prepaid: say('prepaid'),
    rounding: say('rounding'),
    toPay: say('to-pay'),
    credited: say('credited'),
    payment: say('payment'),
    payBy: say('pay-by'),
    account: say('account'),
    accountName: say('account-name'),
    bank: say('bank'),
    reference: say('reference'),
    code: say('code'),
    terms: say('terms'),
    mends: say('mends'),
    deducts: say('deducts'),
    ofDate: say('of-date'),
  };
};

/** How the lines of an invoice are named: a deposit, work given, a stage. Hand it to `layDepositReady` and its like. */
export const invoiceDraftWords = (language: string): DraftWords => {
  const { say } = paperWords(language);
  return {
    deposit: (name) => say('invoice.line.deposit', { name }),
    compliments: (words) => say('invoice.line.compliments', { words }),
    stage: (percent) => say('invoice.line.stage', { percent }),
  };
};

/** How an earlier invoice that comes off is named on its line. */
export const deductionWords = (language: string): DeductionWords => {
  const { say, date } = paperWords(language);
  const dated = (key: string, number: string, issued: CalendarDate | undefined): string =>
    issued ? say(`${key}-dated`, { number, date: date(issued) }) : say(key, { number });
  return {
    less: (number, issued) => dated('invoice.line.less', number, issued),
    back: (number, issued) => dated('invoice.line.back', number, issued),
  };
};

/** A unit behind its figure: `metres`. */
export const unitOnPaper = (language: string, unit: QuantityUnit): string =>
  paperWords(language).say(`invoice.unit.${unit}`);
