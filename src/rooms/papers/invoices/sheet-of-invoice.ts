import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import type { Money } from '../../../domain/kernel/money.js';
import type { QuantityUnit } from '../../../domain/kernel/quantity.js';
import type { DraftedKind } from '../../../domain/papers/invoice/invoice-choices.js';
import type { Paper } from '../../../domain/papers/model/paper.js';
import { type ReadablePaper, readPaper } from '../../../domain/papers/model/read-paper.js';
import { isCreditorReference, referenceInFours } from '../../../domain/papers/payment/creditor-reference.js';
import { epcOffer } from '../../../domain/papers/payment/epc-payload.js';
import { ibanInFours, isIban } from '../../../domain/papers/payment/iban.js';
import { TAX_CATEGORIES, type TaxCategory } from '../../../domain/papers/tax/category.js';
import { paymentCode } from '../../../printing/exchange/payment-code.js';
import type { InvoiceLabels } from '../../../printing/papers/invoice-labels.js';
import type { InvoiceSheet, InvoiceSheetLine } from '../../../printing/papers/invoice-sheet.js';
import type { Priced, QuoteTax, Said } from '../../../printing/papers/quote-sheet.js';
import { invoiceLabels, unitOnPaper } from '../../../printing/papers/words/invoice-words.js';
import { paperWords } from '../../../printing/papers/words/paper-words.js';
import { envelopeOf, letterheadOf } from '../../../web/papers/house-on-paper.js';
import { amountInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import type { InvoiceOfDraft } from './invoice-of-draft.js';
import { movedInWords } from './moved-in-words.js';

/** What stands on the paper besides what was worked out. */
export type InvoiceSheetHead = {
  readonly number: string;
  readonly notice: string;
};

const PRICE_DECIMALS = 6;

/** How a language writes days, amounts and figures; made anew it takes longer than the rest of the sheet. */
const mannerOf = (language: string, currency: string) => {
  const places = new Intl.NumberFormat(language, { style: 'currency', currency }).resolvedOptions();
  const price = new Intl.NumberFormat(language, {
    minimumFractionDigits: places.minimumFractionDigits ?? 2,
    maximumFractionDigits: PRICE_DECIMALS,
  });
  const figure = new Intl.NumberFormat(language, { maximumFractionDigits: PRICE_DECIMALS });
  const written = (format: Intl.NumberFormat, value: Decimal): string =>
    format
      .format(value.toDecimalPlaces(PRICE_DECIMALS).toFixed() as unknown as number)
      .replace('-', '−')
      .replace(/[\u00a0\u202f]/g, ' ');
  return {
    day: (date: CalendarDate): string => paperWords(language).date(date),
    category: (category: TaxCategory): string => paperWords(language).say(`tax.${category}`),
    of: (label: string, words: string): string => paperWords(language).say('of', { label, words }),
    unit: (unit: QuantityUnit): string => unitOnPaper(language, unit),
    amount: (money: Money): string => amountInWords(money, language),
    price: (value: Decimal): string => written(price, value),
    figure: (value: Decimal): string => written(figure, value),
    currency: capitalised(new Intl.DisplayNames(language, { type: 'currency' }).of(currency) ?? currency),
  };
};
type Manner = ReturnType<typeof mannerOf>;

const manners = new Map<string, Manner>();
const manner = (language: string, currency: string): Manner => {
  const key = `${language} ${currency}`;
  const made = manners.get(key) ?? mannerOf(language, currency);
  manners.set(key, made);
  return made;
};

/** An invoice or credit note in words, ready to print. */
export const sheetOfInvoice = (told: InvoiceOfDraft, head: InvoiceSheetHead): InvoiceSheet => {
  const { studio, client, commission, language, hand, kept } = told;
  const labels = invoiceLabels(language);
  const paper = readPaper(hand.paper);
  const say = manner(language, paper.currency);
  const kind = paper.kind as DraftedKind;
  const isCredit = kind === 'credit-note';
  return {
    language,
    labels,
    letterhead: letterheadOf(studio, { language, mark: told.mark }),
    notice: head.notice,
    title: labels.titles[kind],
    number: head.number,
    client: {
      name: client.name,
      address: envelopeOf(client),
      numbers: client.taxNumber ? [{ label: labels.clientTaxNumber, words: client.taxNumber }] : [],
    },
    particulars: particularsOf(paper, head.number, labels, say),
    subject: commission?.title ?? '',
    references: paper.earlier.length > 0 ? [referenceOf(paper, labels, say)] : [],
    opening: kept.choices.note,
    currency: say.currency,
    lines: paper.lines.map((line, place) =>
      lineOf(line, hand.paper['BG-25'][place]?.['BT-130'] ?? 'piece', say),
    ),
    sums: sumsOf(paper, labels, say),
    taxes: taxesOf(paper, labels, say),
    total: {
      label: isTaxed(paper) ? labels.total : labels.totalUntaxed,
      amount: say.amount(paper.totals.gross),
    },
    after: afterOf(paper, labels, say),
    due: {
      label: `${isCredit ? labels.credited : labels.toPay}, ${paper.currency}`,
      amount: say.amount(paper.totals.due),
    },
    notes: movedInWords(hand.moved, language),
    payment: paymentOf(paper, told.settings.bank, codeOf(hand.paper, head.number, labels), labels),
    terms: [...(paper.terms ?? '').split('\n'), ...(isCredit ? [] : told.settings.terms.split('\n'))].filter(
      (line) => line.trim() !== '',
    ),
  };
};

const particularsOf = (paper: ReadablePaper, number: string, labels: InvoiceLabels, say: Manner): Said[] => [
  { label: labels.number, words: number },
  ...(paper.issued ? [{ label: labels.date, words: say.day(paper.issued) }] : []),
  ...(paper.supplied ? [{ label: labels.supplied, words: say.day(paper.supplied) }] : []),
  ...(paper.due ? [{ label: labels.due, words: say.day(paper.due) }] : []),
  ...(paper.orderNumber ? [{ label: labels.order, words: paper.orderNumber }] : []),
];

const referenceOf = ({ kind, earlier }: ReadablePaper, labels: InvoiceLabels, say: Manner): string => {
  const cited = earlier.map(({ number, issued }) =>
    issued ? `${number} ${labels.ofDate} ${say.day(issued)}` : number,
  );
  return `${kind === 'credit-note' ? labels.mends : labels.deducts} ${cited.join(', ')}`;
};

const lineOf = (line: ReadablePaper['lines'][number], unit: QuantityUnit, say: Manner): InvoiceSheetLine => ({
  number: line.number,
  name: line.name,
  description: line.description ?? '',
  details: [
    ...line.allowances.map(({ amount, reason }) => `${reason ?? ''} ${say.amount(amount.negated())}`.trim()),
    ...line.charges.map(({ amount, reason }) => `${reason ?? ''} ${say.amount(amount)}`.trim()),
  ],
  quantity: unit === 'piece' ? say.figure(line.quantity) : `${say.figure(line.quantity)} ${say.unit(unit)}`,
  price: say.price(line.price),
  tax: line.rate && TAX_CATEGORIES[line.category].taxed ? `${say.figure(line.rate)} %` : line.category,
  net: say.amount(line.net),
});

/** Does any of it carry tax? Else the paper speaks of none, beside the reason for it. */
const isTaxed = ({ groups }: ReadablePaper): boolean =>
  groups.some(({ category }) => !TAX_CATEGORIES[category].reason);

const sumsOf = (paper: ReadablePaper, labels: InvoiceLabels, say: Manner): Priced[] => {
  const { totals, allowances, charges } = paper;
  return [
    ...(allowances.length + charges.length > 0
      ? [{ label: labels.lines, amount: say.amount(totals.lines) }]
      : []),
    ...allowances.map(({ amount, reason }) => ({
      label: reason || labels.allowances,
      amount: say.amount(amount.negated()),
    })),
    ...charges.map(({ amount, reason }) => ({ label: reason || labels.charges, amount: say.amount(amount) })),
    ...(isTaxed(paper) ? [{ label: labels.net, amount: say.amount(totals.net) }] : []),
  ];
};

const taxesOf = ({ groups }: ReadablePaper, labels: InvoiceLabels, say: Manner): QuoteTax[] =>
  groups.map((group) => {
    const category = TAX_CATEGORIES[group.category];
    const note = group.reason ?? '';
    return category.taxed
      ? {
          name: `${labels.tax} ${say.figure(group.rate ?? new Decimal(0))} %`,
          on: say.amount(group.base),
          amount: say.amount(group.tax),
          note,
        }
      : {
          name: say.of(labels.tax, `${say.category(group.category)} (${group.category})`),
          on: say.amount(group.base),
          amount: category.reason ? '' : say.amount(group.tax),
          note,
        };
  });

const afterOf = ({ totals }: ReadablePaper, labels: InvoiceLabels, say: Manner): Priced[] => [
  ...(totals.prepaid.isZero()
    ? []
    : [{ label: labels.prepaid, amount: say.amount(totals.prepaid.negated()) }]),
  ...(totals.rounding.isZero() ? [] : [{ label: labels.rounding, amount: say.amount(totals.rounding) }]),
];

/** The payment code, where the paper asks for euro on an account; '' where it cannot have one, such as in a preview. */
const codeOf = (paper: Paper, number: string, labels: InvoiceLabels): string => {
  const offer = paper['BT-1'] === undefined ? { without: number } : epcOffer(paper);
  return 'payload' in offer ? paymentCode(offer.payload, labels.code).markup : '';
};

const paymentOf = (
  { payment }: ReadablePaper,
  bank: string,
  code: string,
  labels: InvoiceLabels,
): InvoiceSheet['payment'] => {
  if (!payment) return null;
  const pairs: [string, string | undefined][] = [
    [
      labels.account,
      payment.account && isIban(payment.account) ? ibanInFours(payment.account) : payment.account,
    ],
    [labels.accountName, payment.accountName],
    [labels.bank, [bank, payment.bank].filter(Boolean).join(', ')],
    [
      labels.reference,
      payment.reference && isCreditorReference(payment.reference)
        ? referenceInFours(payment.reference)
        : payment.reference,
    ],
  ];
  return {
    words: labels.payBy,
    pairs: pairs.flatMap(([label, words]) => (words ? [{ label, words }] : [])),
    code,
    codeWords: code ? labels.code : '',
  };
};
