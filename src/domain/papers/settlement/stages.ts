import { Invalid } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import type { Stages } from '../gate/own-rules.js';
import { type DraftLine, makePaper, type PaperDraft } from '../model/make-paper.js';
import type { Paper, PaperHead } from '../model/paper.js';
import type { QuotePaper } from '../quote/quote-paper.js';
import { cited, deductionLine, deductionsOf } from './deductions.js';

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
 * The final invoice when tax is due on deposits: the whole, less every earlier invoice per category and rate, so that what
 * is left is the remainder of net; its tax is worked out by the rule on that remainder.
 *
 * @param whole everything made for the commission, as if nothing had been invoiced; prices before tax
 * @param earlier issued deposit and part invoices of the same commission
 * @returns the paper, citing each earlier invoice, and the drift of at most one unit per earlier invoice and group
 * @throws Invalid when the whole's prices hold tax: its lines must be net for net amounts to be taken off
 * @see design rulings, stages of payment; test/domain/papers/settlement.test.ts
 */
export const finalInvoice = (whole: PaperDraft, earlier: readonly Paper[]): FinalInvoice => {
  if (whole.pricesInclude === 'tax')
    throw new Invalid('Turn prices kept with tax into net lines before deducting earlier invoices.');
  const deductions = earlier.flatMap(deductionsOf);
  const all = makePaper(whole);
  const rounded = earlier.map((each) => each['BG-22']['BT-114'].negated());
  const paper = makePaper({
    ...whole,
    head: {
      ...whole.head,
      kind: 'final-invoice',
      'BG-3': [...(whole.head['BG-3'] ?? []), ...cited(deductions)],
    },
    // The discount was for the whole: it keeps the shares it has there, untouched by what is deducted.
    spreadDiscount: undefined,
    allowances: all['BG-20'].map((each) => ({
      amount: each['BT-92'],
      category: each['BT-95'],
      rate: each['BT-96'],
      reason: each['BT-97'] ?? '',
    })),
    lines: [...whole.lines, ...deductions.map(deductionLine)],
    // What earlier papers rounded the amount due by comes back here, or the client would pay it twice.
    rounding: Money.sum([all['BG-22']['BT-114'], ...rounded], whole.head['BT-5']),
  });
  const earlierTax = Money.sum(
    earlier.map((each) => each['BG-22']['BT-110']),
    whole.head['BT-5'],
  );
  const wholeTax = all['BG-22']['BT-110'];
  const drift = earlierTax.plus(paper['BG-22']['BT-110']).minus(wholeTax);
  return {
    paper,
    stages: { wholeTax, earlierTax, cited: earlier.length },
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
