import { Decimal } from '../../../domain/kernel/decimal.js';
import { Money } from '../../../domain/kernel/money.js';
import type { EarlierPaper } from '../../../domain/papers/invoice/earlier-paper.js';
import type { InvoiceChoices } from '../../../domain/papers/invoice/invoice-choices.js';
import type { Paper } from '../../../domain/papers/model/paper.js';
import type { Deduction } from '../../../domain/papers/settlement/deductions.js';
import type { IssuedInvoice } from './invoice-book.js';
import type { Kept } from './quote-text.js';

/** Terms of the paper that are money; every other figure is a decimal. */
const MONEY = new Set(
  [92, 99, 106, 107, 108, 109, 110, 112, 113, 114, 115, 116, 117, 131, 136, 141].map((term) => `BT-${term}`),
);
const DECIMALS = new Set([96, 103, 119, 129, 146, 149, 152].map((term) => `BT-${term}`));

/** An issued paper's business terms read back, in its own currency. */
export const paperOf = (kept: unknown): Paper => {
  const currency = (kept as { 'BT-5': string })['BT-5'];
  const read = (name: string, one: unknown): unknown => {
    if (typeof one === 'string' && (MONEY.has(name) || name === 'unreached'))
      return Money.parse(one, currency);
    if (typeof one === 'string' && DECIMALS.has(name)) return new Decimal(one);
    if (Array.isArray(one)) return one.map((each) => read('', each));
    if (one !== null && typeof one === 'object')
      return Object.fromEntries(Object.entries(one).map(([key, each]) => [key, read(key, each)]));
    return one;
  };
  return read('', kept) as Paper;
};

/** What was chosen for an invoice, read back. */
export const invoiceChoicesOf = (kept: unknown): InvoiceChoices => {
  const { lines, discount, prepaid, creditAmount, ...rest } = kept as Kept<InvoiceChoices>;
  const money = (amount: string): Money => Money.parse(amount, rest.currency);
  return {
    ...(rest as Omit<InvoiceChoices, 'lines' | 'discount' | 'prepaid' | 'creditAmount'>),
    lines: lines.map(({ quantity, price, rate, ...line }) => ({
      ...(line as Omit<InvoiceChoices['lines'][number], 'quantity' | 'price' | 'rate'>),
      quantity: new Decimal(quantity),
      price: new Decimal(price),
      ...(rate === undefined ? {} : { rate: new Decimal(rate) }),
    })),
    discount: money(discount),
    prepaid: money(prepaid),
    due: rest.due,
    supplied: rest.supplied,
    creditAmount: creditAmount === undefined ? undefined : money(creditAmount),
  };
};

/** What an issued invoice keeps. */
export type InvoiceDocument = {
  readonly choices: InvoiceChoices;
  /** Its business terms, with its number. */
  readonly paper: Paper;
  readonly deductions: readonly Deduction[];
  /** Where a minor unit went. */
  readonly sentences: readonly string[];
  /** The numbers of the quotes it rests on. */
  readonly quotes: readonly string[];
  /** Its words as printed: an InvoiceSheet of printing. */
  readonly sheet: unknown;
};

/** An issued invoice's document read back: amounts as values. */
export const invoiceDocumentOf = ({ document }: Pick<IssuedInvoice, 'document'>): InvoiceDocument => {
  const kept = JSON.parse(document) as Kept<InvoiceDocument>;
  const paper = paperOf(kept.paper);
  return {
    choices: invoiceChoicesOf(kept.choices),
    paper,
    deductions: kept.deductions.map(({ net, rate, ...one }) => ({
      ...(one as Omit<Deduction, 'net' | 'rate'>),
      net: Money.parse(net, paper['BT-5']),
      ...(rate === undefined ? {} : { rate: new Decimal(rate) }),
    })),
    sentences: kept.sentences,
    quotes: kept.quotes,
    sheet: kept.sheet,
  };
};

/** A commission's issued papers as later ones rest on them: invoices oldest first, each with its credit notes. */
export const earlierOf = (papers: readonly IssuedInvoice[]): EarlierPaper[] => {
  const documents = new Map(papers.map((paper) => [paper.id, invoiceDocumentOf(paper)]));
  return papers
    .filter(({ kind }) => kind !== 'credit-note' && kind !== 'receipt')
    .map(({ id }) => {
      const { paper, choices, deductions } = documents.get(id)!;
      return {
        id,
        paper,
        lines: choices.lines,
        deductions,
        credits: papers
          .filter(({ kind, cites }) => kind === 'credit-note' && cites.includes(id))
          .map((credit) => documents.get(credit.id)!.paper),
      };
    });
};
