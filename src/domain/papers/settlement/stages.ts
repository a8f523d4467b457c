import { Invalid } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import type { Stages } from '../gate/own-rules.js';
import { type DraftLine, makePaper, type PaperDraft } from '../model/make-paper.js';
import type { Paper, PaperHead } from '../model/paper.js';
import type { QuotePaper } from '../quote/quote-paper.js';
import {
  cited,
  DEDUCTION_WORDS,
  type Deduction,
  type DeductionWords,
  deductionLine,
  deductionsOf,
} from './deductions.js';

/** The two treatments of a deposit: tax falls due on it, or it is a payment on account. A studio setting. */
export type DepositTreatment = 'tax-due-on-deposits' | 'payment-on-account';

/**
 * The draft of a deposit invoice (type 386): one line per garment that takes part, its tax inside the amount asked.
 *
 * @param quote accepted; its deposit is split over garments, with tax
 * @param head number, dates and parties of the invoice
 * @throws Invalid when the quote asks for no deposit
 * @see EN 16931-1 BT-3 code 386; VAT Directive 2006/112/EC art. 65 and 226(7); local law decides
 */
export const depositDraft = (quote: QuotePaper, head: Omit<PaperHead, 'kind'>): PaperDraft => {
  if (quote.deposit.total.isZero()) throw new Invalid('This quote asks for no deposit.');
  const lines = quote.garments
    .filter((garment) => !garment.deposit.isZero())
    .map(
      (garment): DraftLine => ({
        ...deductionLine({
          number: '',
          category: garment.category,
          rate: garment.rate,
          net: garment.deposit.negated(),
        }),
        name: `Deposit: ${garment.name}`,
      }),
    );
  if (lines.length === 0) throw new Invalid('No garment takes part in the deposit.');
  return {
    head: { ...head, kind: 'deposit-invoice' },
    lines,
    pricesInclude: 'tax',
    taxReasons: Object.fromEntries(
      quote.paper['BG-23'].flatMap((group) =>
        group['BT-120'] ? [[group['BT-118'], group['BT-120']] as const] : [],
      ),
    ),
  };
};

/** A final invoice and how its taxes stand to the whole. */
export type FinalInvoice = {
  readonly paper: Paper;
  /** For the gate: tax on the whole against what earlier papers stated. */
  readonly stages: Stages;
  /** Σ taxes of all papers − tax on the whole: what rounding once per paper moved, in minor units. */
  readonly drift: Money;
  /** Said on the page when a unit went another way. */
  readonly driftSentence?: string;
};

/**
 * A draft with earlier invoices taken off it, per category and rate, each cited once.
 *
 * @param draft prices before tax
 * @param deductions in the order in which they stand on the paper
 * @param roundingBack what comes back of earlier rounding amounts (BT-114), or the client would pay it twice
 */
export const withDeductions = (
  draft: PaperDraft,
  deductions: readonly Deduction[],
  words: DeductionWords = DEDUCTION_WORDS,
  roundingBack: Money = Money.zero(draft.head['BT-5']),
): PaperDraft => {
  const all = makePaper(draft);
  return {
    ...draft,
    head: {
      ...draft.head,
      ...(deductions.length > 0 ? { 'BG-3': [...(draft.head['BG-3'] ?? []), ...cited(deductions)] } : {}),
    },
    // A discount was for what is asked here: it keeps the shares it has there, untouched by what is deducted.
    spreadDiscount: undefined,
    allowances: all['BG-20'].map((each) => ({
      amount: each['BT-92'],
      category: each['BT-95'],
      rate: each['BT-96'],
      reason: each['BT-97'] ?? '',
    })),
    lines: [...draft.lines, ...deductions.map((each) => deductionLine(each, words))],
    rounding: all['BG-22']['BT-114'].plus(roundingBack),
  };
};

/** What a paper states, as it counts beside others: a credit note takes off what an invoice adds. */
export const signed = (paper: Paper, amount: Money): Money =>
  paper.kind === 'credit-note' ? amount.negated() : amount;

/**
 * The final invoice when tax is due on deposits: the whole, less every earlier invoice per category and rate, so that what
 * is left is the remainder of net; its tax is worked out by the rule on that remainder.
 *
 * @param whole everything made for the commission, as if nothing had been invoiced; prices before tax
 * @param earlier issued deposit and part invoices of the same commission, and the credit notes on them
 * @returns the paper, citing each earlier one, and the drift of at most one unit per earlier paper and group
 * @throws Invalid when the whole's prices hold tax: its lines must be net for net amounts to be taken off
 * @see design rulings, stages of payment; test/domain/papers/settlement.test.ts
 */
export const finalInvoice = (
  whole: PaperDraft,
  earlier: readonly Paper[],
  words: DeductionWords = DEDUCTION_WORDS,
): FinalInvoice => {
  if (whole.pricesInclude === 'tax')
    throw new Invalid('Turn prices kept with tax into net lines before deducting earlier invoices.');
  const currency = whole.head['BT-5'];
  const wholeTax = makePaper(whole)['BG-22']['BT-110'];
  const rounded = Money.sum(
    earlier.map((each) => signed(each, each['BG-22']['BT-114'])),
    currency,
  );
  const paper = makePaper(
    withDeductions(
      { ...whole, head: { ...whole.head, kind: 'final-invoice' } },
      earlier.flatMap(deductionsOf),
      words,
      rounded.negated(),
    ),
  );
  const earlierTax = Money.sum(
    earlier.map((each) => signed(each, each['BG-22']['BT-110'])),
    currency,
  );
  const drift = earlierTax.plus(paper['BG-22']['BT-110']).minus(wholeTax);
  return {
    paper,
    stages: { wholeTax, earlierTax, cited: earlier.length, groups: paper['BG-23'].length },
    drift,
    driftSentence: drift.isZero()
      ? undefined
      : `Tax was rounded once on each paper; together they state ${drift.isNegative() ? drift.negated() : drift} ${
          drift.isNegative() ? 'less' : 'more'
        } than tax on the whole worked out at once.`,
  };
};

/**
 * The draft of a final invoice when a deposit is a payment on account: what was received stands as prepaid (BT-113).
 *
 * @param received Σ receipts not yet set against another invoice
 */
export const withPrepaid = (whole: PaperDraft, received: readonly Money[]): PaperDraft => ({
  ...whole,
  head: { ...whole.head, kind: 'final-invoice' },
  prepaid: Money.sum(received, whole.head['BT-5']),
});

/**
 * The net lines of a draft whose prices hold tax, so that earlier invoices can be taken off them.
 *
 * @returns the draft with net prices, its allowances and charges net, its promise in the rounding amount
 */
export const netDraft = (draft: PaperDraft): PaperDraft => {
  if (draft.pricesInclude !== 'tax') return draft;
  const paper = makePaper(draft);
  return {
    ...draft,
    pricesInclude: 'none',
    spreadDiscount: undefined,
    rounding: paper['BG-22']['BT-114'],
    lines: draft.lines.map((line, index) => ({
      ...line,
      price: paper['BG-25'][index]?.['BT-146'] ?? line.price,
      allowances: paper['BG-25'][index]?.['BG-27'].map((each) => ({
        amount: each['BT-136'],
        reason: each['BT-139'] ?? '',
      })),
      charges: paper['BG-25'][index]?.['BG-28'].map((each) => ({
        amount: each['BT-141'],
        reason: each['BT-144'] ?? '',
      })),
    })),
    allowances: paper['BG-20'].map((each) => ({
      amount: each['BT-92'],
      category: each['BT-95'],
      rate: each['BT-96'],
      reason: each['BT-97'] ?? '',
    })),
    charges: paper['BG-21'].map((each) => ({
      amount: each['BT-99'],
      category: each['BT-102'],
      rate: each['BT-103'],
      reason: each['BT-104'] ?? '',
    })),
  };
};
