import type { CostSheet, CostSheetInput } from '../costing/cost-lines.js';
import type { Decimal } from '../kernel/decimal.js';
import type { Money } from '../kernel/money.js';
import type { Share } from '../kernel/share.js';

/** How a studio turns a cost into a price; everything may be left out. */
export type PricingTerms = {
  /** Share of the price; not beside `markup`. */
  readonly margin?: Share;
  /** Share of the cost; not beside `margin`. */
  readonly markup?: Share;
  /** Share of the charged value of the materials marked for handling. */
  readonly handlingShare?: Share;
  readonly minimumCharge?: Money;
  readonly rushShare?: Share;
  /** The rush share is of the labour cost (the default) or of the running price. */
  readonly rushOn?: 'labour' | 'price';
  readonly discount?: Money;
  /** The price goes up to a multiple of this; the minor unit when left out. */
  readonly roundTo?: Money;
};

/** EN 16931 category codes a studio can meet (UNTDID 5305). */
export const TAX_CATEGORIES = ['S', 'Z', 'E', 'AE', 'O', 'G', 'K'] as const;
export type TaxCategory = (typeof TAX_CATEGORIES)[number];

/** `rate` is a percentage, 0 to 100; a missing rate is 0. */
export type TaxTerms = { readonly category: TaxCategory; readonly rate?: Decimal };

/**
 * The chance that the job loses money: a share, or a function from the minutes of work the price can bear (mending
 * already taken off) to the chance that the work takes longer.
 */
export type ChanceOfLoss = number | ((minutesBorne: Decimal) => number);

export type PriceInput = CostSheetInput & {
  readonly pricing?: PricingTerms;
  readonly tax?: TaxTerms;
  /** With `tax`, minimum charge, discount and rounding step are amounts that include tax. */
  readonly pricesInclude?: 'none' | 'tax';
  /** A price before tax that the maker set by hand: it stands in the place of the worked-out one. */
  readonly ownNet?: Money;
  readonly chanceOfLoss?: ChanceOfLoss;
};

export const PRICE_STEPS = [
  'cost',
  'stash-uplift',
  'margin',
  'handling',
  'rush',
  'minimum',
  'discount',
  'rounding',
  'set-by-hand',
] as const;

/** One step from cost to net price; the amounts of all steps add up to the net price exactly. */
export type PriceStep = { readonly kind: (typeof PRICE_STEPS)[number]; readonly amount: Money };

export type Price = {
  readonly net: Money;
  readonly tax: Money;
  readonly gross: Money;
  /** net − cost, at book cost. */
  readonly profit: Money;
  readonly margin: Share | null;
  readonly markup: Share | null;
  /** (profit + labour) / priced hours; null at no hours. */
  readonly earnedPerHour: Money | null;
  readonly lowestThatPaysTheWage: Money;
  readonly stashUplift: Money;
  readonly handling: Money;
  readonly rush: Money;
  readonly discount: Money;
  /** Did the minimum charge lift this price? */
  readonly minimumApplied: boolean;
  readonly steps: readonly PriceStep[];
  /** Minutes (mending included) at which nothing is left of the profit; null when time costs nothing. */
  readonly breakEvenMinutes: Decimal | null;
};

export type PriceAnswer = {
  readonly minutes: CostSheet['minutes'];
  readonly costSheet: CostSheet;
  readonly price: Price;
  /** Kept back for the unexpected: priced − even-chance minutes, and what they cost before margin. */
  readonly keptBack: { readonly minutes: Decimal; readonly money: Money };
  readonly chanceOfLoss: number | null;
};
