import type { Letterhead } from './letterhead.js';
import type { QuoteLabels } from './words/quote-labels.js';

/** Something and what it comes to, in words: "Cape for the prompter", "480.00". */
export type Priced = { readonly label: string; readonly amount: string };

/** Something and what is said of it: "First fitting", "Tuesday 4 August 2026". */
export type Said = { readonly label: string; readonly words: string };

/** One garment of a quote. */
export type QuoteGarment = {
  readonly number: string;
  readonly name: string;
  /** '' when the client wears it. */
  readonly wearer: string;
  /** "Made by hand throughout"; '' when not said. */
  readonly make: string;
  /** The spec lines shown to the client, in their own wording. */
  readonly scope: readonly string[];
  /** Prices within the garment that the studio chose to show; usually none. */
  readonly parts: readonly Priced[];
  readonly price: string;
};

/** Something the client may add. Its price is not in the total. */
export type QuoteOption = { readonly name: string; readonly words: string; readonly price: string };

/** One (category, rate) group of tax; `amount` is '' for an exemption whose reason stands in `note`. */
export type QuoteTax = {
  /** "VAT 20 %" */
  readonly name: string;
  /** What it is worked out on. */
  readonly on: string;
  readonly amount: string;
  readonly note: string;
};

/** The whole quote as words. Nothing is worked out while it is drawn; '' and [] are left out, null sections too. */
export type QuoteSheet = {
  /** BCP 47, such as "en-GB". */
  readonly language: string;
  /** The fixed words, in that language. */
  readonly labels: QuoteLabels;
  readonly letterhead: Letterhead;
  /** "Preview, not issued": stands across the head; '' once issued. */
  readonly notice: string;
  readonly title: string;
  readonly number: string;
  readonly version: string;
  readonly date: string;
  readonly validUntil: string;
  /** Which it is: name "Fixed price", "Estimate" or "Time", and what that means here. */
  readonly kind: { readonly name: string; readonly meaning: string };
  readonly client: {
    readonly name: string;
    readonly address: readonly string[];
    /** The client's own order number. */
    readonly reference: string;
  };
  readonly subject: string;
  readonly opening: string;
  readonly garments: readonly QuoteGarment[];
  readonly fittings: readonly string[];
  readonly excluded: readonly string[];
  readonly options: readonly QuoteOption[];
  readonly price: {
    /** "Pounds sterling": stands in the head of the column of amounts. */
    readonly currency: string;
    /** What leads to the total before tax: garments, discount, price before tax. */
    readonly lines: readonly Priced[];
    readonly taxes: readonly QuoteTax[];
    readonly total: Priced;
    /** Where a minor unit went, why no tax is charged. */
    readonly notes: readonly string[];
  };
  readonly deposit: {
    readonly words: string;
    readonly amount: string;
    readonly shares: readonly Priced[];
    readonly balance: Priced;
  } | null;
  readonly dates: readonly Said[];
  /** How the price of cloth may move until it is bought. */
  readonly cloth: string;
  /** Only when the studio switched hours on. */
  readonly hours: {
    readonly words: string;
    readonly lines: readonly Priced[];
    readonly total: Priced;
  } | null;
  readonly terms: readonly string[];
  readonly acceptance: {
    readonly words: string;
    /** A box to tick each: the garments and options that may be accepted alone. */
    readonly choices: readonly string[];
  };
};
