import type { CurrencyCode } from '../../kernel/currency.js';
import type { Decimal } from '../../kernel/decimal.js';
import { Conflict, Trouble } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import { makeQuote, quoteForSome } from '../quote/make-quote.js';
import type { QuoteDraft } from '../quote/quote-paper.js';
import type { TaxCategory } from '../tax/category.js';
import type { PricesInclude } from '../tax/tax-question.js';

/** One thing that was agreed at a price. */
export type AgreedPiece = {
  readonly ref: string;
  /** The garment it belongs to: itself, or the one an option is for; '' for the whole. */
  readonly garment: string;
  readonly name: string;
  readonly description: string;
  /** Before tax or with it, as the quote kept its prices. */
  readonly price: Money;
  readonly category: TaxCategory;
  readonly rate?: Decimal;
  /** Its share of the deposit, with tax; nought for an option. */
  readonly deposit: Money;
};

/** What was agreed for a commission, out of the quotes that were accepted. */
export type AgreedWork = {
  readonly currency: CurrencyCode;
  readonly pricesInclude: PricesInclude;
  readonly taxReasons: Partial<Record<TaxCategory, string>>;
  readonly pieces: readonly AgreedPiece[];
  readonly discount: Money;
  readonly discountReason: string;
  /** The numbers of the quotes it rests on. */
  readonly quotes: readonly string[];
};

/** A quote that counts, and what of it: refs of garments and options, or the whole as printed. */
export type CountingQuote = { readonly draft: QuoteDraft; readonly taken: readonly string[] | undefined };

/** The same quote without a deposit that cannot stand on what is left of it. */
const depositsOf = (draft: QuoteDraft): Money[] => {
  try {
    return makeQuote(draft).garments.map(({ deposit }) => deposit);
  } catch (error) {
    if (!(error instanceof Trouble)) throw error;
    return draft.garments.map(() => Money.zero(draft.currency));
  }
};

const piecesOf = (draft: QuoteDraft): AgreedPiece[] => {
  const deposits = depositsOf(draft);
  return [
    ...draft.garments.map(({ ref, name, wearer, scope, price, category, rate }, place) => ({
      ref,
      garment: ref,
      name: wearer === undefined ? name : `${name} (${wearer})`,
      description: scope.map(({ text }) => text).join('\n'),
      price,
      category,
      ...(rate ? { rate } : {}),
      deposit: deposits[place] ?? Money.zero(draft.currency),
    })),
    ...(draft.options ?? [])
      .filter(({ taken }) => taken)
      .map(({ ref, garmentRef, text, price, category, rate }) => ({
        ref: `${draft.number ?? ''} ${ref}`.trim(),
        garment: garmentRef ?? '',
        name: text,
        description: '',
        price,
        category,
        ...(rate ? { rate } : {}),
        deposit: Money.zero(draft.currency),
      })),
  ];
};

/**
 * What was agreed: of every quote that counts, the garments and options taken, at the prices printed there. Where two quotes
 * hold the same garment, the later one counts for it.
 *
 * @param quotes oldest first, at most one version per number
 * @returns prices as the quotes kept them; discounts added up, shares of deposits as each quote split them
 * @throws Conflict when the quotes keep their prices differently, or in different currencies
 * @see test/domain/papers/invoice/drafting.test.ts
 */
export const agreedWork = (quotes: readonly CountingQuote[]): AgreedWork | undefined => {
  const drafts = quotes.map(({ draft, taken }) => (taken ? quoteForSome(draft, taken) : draft));
  const last = drafts.at(-1);
  if (!last) return undefined;
  const pricesInclude = last.pricesInclude ?? 'none';
  if (drafts.some((one) => one.currency !== last.currency || (one.pricesInclude ?? 'none') !== pricesInclude))
    throw new Conflict(
      'The quotes of this commission keep their prices in different ways, so that they cannot be added up. Make one new quote of it.',
      'quotes-differ',
    );
  const pieces = new Map<string, AgreedPiece>();
  for (const draft of drafts) for (const piece of piecesOf(draft)) pieces.set(piece.ref, piece);
  const discounts = drafts.flatMap(({ discount }) => discount ?? []);
  return {
    currency: last.currency,
    pricesInclude,
    taxReasons: Object.assign(
      {},
      ...drafts.map((draft) =>
        Object.fromEntries(
          makeReasons(draft).flatMap(([category, reason]) => (reason ? [[category, reason]] : [])),
        ),
      ),
    ),
    pieces: [...pieces.values()],
    discount: Money.sum(
      discounts.map(({ amount }) => amount),
      last.currency,
    ),
    discountReason: [...new Set(discounts.map(({ reason }) => reason).filter(Boolean))].join(', '),
    quotes: drafts.flatMap(({ number }) => number ?? []),
  };
};

const makeReasons = (draft: QuoteDraft): [string, string | undefined][] =>
  Object.entries(draft.taxReasons ?? {});
