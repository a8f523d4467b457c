import type { DraftChoices } from '../../../domain/papers/quote/draft-choices.js';
import { quoteForSome } from '../../../domain/papers/quote/make-quote.js';
import type { QuoteDraft } from '../../../domain/papers/quote/quote-paper.js';
import type { QuoteSheet } from '../../../printing/papers/quote-sheet.js';
import type { IssuedQuote } from '../../../storage/books/papers/quote-book.js';
import { type Kept, quoteDraftOf } from '../../../storage/books/papers/quote-text.js';
import type { FrozenCosts } from './frozen-costs.js';
import type { PaperGarment, Priced } from './quote-in-hand.js';

/** What an issued quote keeps of its paper. */
export type FrozenDocument = {
  /** What it was made of. */
  readonly draft: QuoteDraft;
  /** Its lines, tax groups and totals by their business terms. */
  readonly paper: object;
  /** Its words as printed. */
  readonly sheet: QuoteSheet;
  readonly words: readonly PaperGarment[];
  readonly minutes: Readonly<Record<string, string>>;
  readonly choices: DraftChoices;
};

/** An issued quote's paper, its amounts as text. */
export const documentOf = ({ document }: Pick<IssuedQuote, 'document'>): Kept<FrozenDocument> =>
  JSON.parse(document) as Kept<FrozenDocument>;

/** An issued quote's costs, their amounts as text. */
export const costsOf = ({ costs }: Pick<IssuedQuote, 'costs'>): Kept<FrozenCosts> =>
  JSON.parse(costs) as Kept<FrozenCosts>;

/**
 * The prices of an issued version for the garments and options that were accepted of it: exactly those prices, taxes and
 * words, whatever has changed since. A discount on the whole does not follow to a part.
 */
export const keptPrices = (quote: IssuedQuote, choices: DraftChoices): Priced => {
  const document = documentOf(quote);
  const costs = JSON.parse(quote.costs) as FrozenCosts;
  const earlier = quoteDraftOf(document.draft as Kept<QuoteDraft>);
  const garments = new Map(
    choices.garments.filter(({ included }) => included).map((garment) => [garment.garmentId, garment]),
  );
  const options = (earlier.options ?? []).filter((_, place) => choices.options[place]?.taken);
  const some = quoteForSome(earlier, [...garments.keys(), ...options.map(({ ref }) => ref)]);
  const isOfSome = (one: { readonly ref: string }): boolean => garments.has(one.ref);
  return {
    draft: {
      garments: some.garments.map(({ fittings: _, ...garment }) => {
        const fittings = garments.get(garment.ref)?.fittings;
        return { ...garment, ...(fittings === undefined ? {} : { fittings }) };
      }),
      options: some.options ?? [],
      currency: earlier.currency,
      registeredForTax: earlier.registeredForTax,
      taxReasons: earlier.taxReasons ?? {},
      pricesInclude: earlier.pricesInclude ?? 'none',
      discount: some.discount,
    } as Priced['draft'],
    words: document.words.filter(isOfSome),
    minutes: Object.fromEntries(Object.entries(document.minutes).filter(([ref]) => garments.has(ref))),
    findings: [],
    costs: { ...costs, pricesOf: quote.id, garments: costs.garments.filter(isOfSome) },
  };
};
