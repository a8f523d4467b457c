import { Decimal } from '../../kernel/decimal.js';
import { Conflict, Invalid } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import type { Share } from '../../kernel/share.js';
import { makePaper } from '../model/make-paper.js';
import type { TaxCategory } from '../tax/category.js';
import type { AgreedPiece, AgreedWork } from './agreed-work.js';
import type { DraftedKind, InvoiceChoices, InvoiceLine } from './invoice-choices.js';

/** Something agreed after the quote, as the bench wrote it down. */
export type BillableExtra = {
  readonly number: number;
  readonly words: string;
  /** As the studio keeps its prices: before tax, or with it. */
  readonly price: Money;
  /** Given with the maker's compliments: it stands on the invoice at nil price. */
  readonly compliments: boolean;
  /** The garment it changes, or ''. */
  readonly garment: string;
  /** The tax on it; that of the garment it changes when left out. */
  readonly category?: TaxCategory;
  readonly rate?: Decimal;
};

/** How drafted lines are named, in the language of the paper. */
export type DraftWords = {
  readonly deposit: (name: string) => string;
  readonly compliments: (words: string) => string;
  readonly stage: (percent: string) => string;
};

export const DRAFT_WORDS: DraftWords = {
  deposit: (name) => `Deposit: ${name}`,
  compliments: (words) => `${words} (with our compliments)`,
  stage: (percent) => `${percent} per cent of the agreed work`,
};

/** What every draft begins with. */
const begin = (work: AgreedWork, kind: DraftedKind, lines: readonly InvoiceLine[]): InvoiceChoices => ({
  kind,
  currency: work.currency,
  pricesInclude: work.pricesInclude,
  lines,
  discount: Money.zero(work.currency),
  discountReason: '',
  taxReasons: work.taxReasons,
  deducts: 'nothing',
  prepaid: Money.zero(work.currency),
  due: undefined,
  supplied: undefined,
  orderNumber: '',
  terms: '',
  note: '',
  credits: 'whole',
  creditLines: [],
  creditAmount: undefined,
});

const lineOf = (piece: AgreedPiece, price: Money = piece.price): InvoiceLine => ({
  ref: piece.ref,
  garment: piece.garment,
  name: piece.name,
  description: piece.description,
  quantity: new Decimal(1),
  unit: 'piece',
  price: price.toDecimal(),
  category: piece.category,
  ...(piece.rate ? { rate: piece.rate } : {}),
});

/** An extra is taxed as it was offered, else as the garment it changes, else as the first thing agreed. A price below nought is work taken out. */
const extraLine = (extra: BillableExtra, work: AgreedWork, words: DraftWords): InvoiceLine => {
  const like = extra.category
    ? { category: extra.category, rate: extra.rate }
    : (work.pieces.find(({ ref }) => ref === extra.garment) ?? work.pieces[0]);
  if (!like) throw new Invalid('An extra can be invoiced only beside agreed work.');
  return {
    ref: `extra-${extra.number}`,
    garment: extra.garment,
    name: extra.compliments ? words.compliments(extra.words) : extra.words,
    description: '',
    // A price is never negative (BR-27): work taken out is a negative quantity.
    quantity: new Decimal(!extra.compliments && extra.price.isNegative() ? -1 : 1),
    unit: 'piece',
    price: extra.compliments ? new Decimal(0) : extra.price.toDecimal().abs(),
    category: like.category,
    ...(like.rate ? { rate: like.rate } : {}),
  };
};

/**
 * A deposit invoice laid ready (type 386): one line per garment with its share of the deposit, tax inside it.
 *
 * @throws Conflict when the quote asks for no deposit
 * @see {@link depositDraft}, of which this is the draft that can be edited
 */
export const layDepositReady = (work: AgreedWork, words: DraftWords = DRAFT_WORDS): InvoiceChoices => {
  const lines = work.pieces
    .filter(({ deposit }) => deposit.minor > 0)
    .map((piece) => ({
      ...lineOf(piece, piece.deposit),
      name: words.deposit(piece.name),
      description: '',
    }));
  if (lines.length === 0)
    throw new Conflict('The quote that was accepted asks for no deposit.', 'no-deposit');
  return { ...begin(work, 'deposit-invoice', lines), pricesInclude: 'tax' };
};

/** The part of a discount on the whole that falls to some of what was agreed, by price. */
const discountOn = (work: AgreedWork, chosen: readonly AgreedPiece[]): Money => {
  const weights = work.pieces.map(({ price }) => new Decimal(Math.max(price.minor, 0)));
  if (work.discount.isZero() || weights.every((weight) => weight.isZero())) return Money.zero(work.currency);
  const parts = work.discount.allocate(weights);
  return Money.sum(
    work.pieces.flatMap((piece, place) => (chosen.includes(piece) ? (parts[place] ?? []) : [])),
    work.currency,
  );
};

/**
 * A part invoice laid ready for garments that leave before their sisters: each with its price as agreed, its options and
 * extras, courtesies at nil price, its part of the discount, less its share of the deposit.
 *
 * @param garments keys of the chosen garments
 * @throws Invalid at `garments` when none is chosen or one was not agreed
 * @see test/domain/papers/invoice/drafting.test.ts
 */
export const layPartReady = (
  work: AgreedWork,
  garments: readonly string[],
  extras: readonly BillableExtra[],
  words: DraftWords = DRAFT_WORDS,
): InvoiceChoices => {
  const known = new Set(work.pieces.filter(({ ref, garment }) => ref === garment).map(({ ref }) => ref));
  if (garments.length === 0) throw Invalid.field('garments', 'Choose at least one garment.');
  if (garments.some((ref) => !known.has(ref)))
    throw Invalid.field('garments', 'This garment is in no quote that was accepted.');
  const pieces = work.pieces.filter(({ garment }) => garments.includes(garment));
  const theirs = extras.filter(({ garment }) => garments.includes(garment));
  return {
    ...begin(work, 'part-invoice', [
      ...pieces.map((piece) => lineOf(piece)),
      ...theirs.map((extra) => extraLine(extra, work, words)),
    ]),
    discount: discountOn(work, pieces),
    discountReason: work.discountReason,
    deducts: 'their-deposit',
  };
};

/**
 * A stage invoice laid ready: a share of all that was agreed, one line per category and rate, before tax.
 *
 * @param share above nought, at most one
 * @throws Invalid at `share` outside that
 */
export const layStageReady = (
  work: AgreedWork,
  share: Share,
  words: DraftWords = DRAFT_WORDS,
): InvoiceChoices => {
  if (!share.greaterThan(0) || share.greaterThan(1))
    throw Invalid.field('share', 'A stage is a share above 0 and up to 100 per cent.');
  const whole = makePaper({
    head: { kind: 'invoice', 'BT-5': work.currency, 'BG-4': {}, 'BG-7': {} },
    lines: work.pieces.map((piece) => lineOf(piece)),
    spreadDiscount: { amount: work.discount, reason: work.discountReason },
    pricesInclude: work.pricesInclude,
  });
  const name = words.stage(share.times(100).toDecimalPlaces(4).toFixed());
  const lines = whole['BG-23'].map(
    (group): InvoiceLine => ({
      ref: '',
      garment: '',
      name,
      description: '',
      quantity: new Decimal(1),
      unit: 'piece',
      price: group['BT-116'].timesRounded(share).toDecimal(),
      category: group['BT-118'],
      ...(group['BT-119'] ? { rate: group['BT-119'] } : {}),
    }),
  );
  return { ...begin(work, 'part-invoice', lines), pricesInclude: 'none' };
};

/**
 * The final invoice laid ready: everything agreed and every extra, less the discount and every earlier invoice. With no
 * earlier invoice it is a plain one.
 *
 * @param received what was paid on account and is set against no invoice yet (BT-113)
 */
export const layFinalReady = (
  work: AgreedWork,
  extras: readonly BillableExtra[],
  hasEarlier: boolean,
  received: Money = Money.zero(work.currency),
  words: DraftWords = DRAFT_WORDS,
): InvoiceChoices => ({
  ...begin(work, hasEarlier ? 'final-invoice' : 'invoice', [
    ...work.pieces.map((piece) => lineOf(piece)),
    ...extras.map((extra) => extraLine(extra, work, words)),
  ]),
  discount: work.discount,
  discountReason: work.discountReason,
  deducts: hasEarlier ? 'all-earlier' : 'nothing',
  prepaid: received,
});

/** A credit note laid ready: the whole of the invoice, until told otherwise. */
export const layCreditReady = (currency: string): InvoiceChoices => ({
  ...begin(
    {
      currency,
      pricesInclude: 'none',
      taxReasons: {},
      pieces: [],
      discount: Money.zero(currency),
      discountReason: '',
      quotes: [],
    },
    'credit-note',
    [],
  ),
});
