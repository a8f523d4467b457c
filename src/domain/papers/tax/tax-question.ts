import type { CurrencyCode } from '../../kernel/currency.js';
import type { Decimal } from '../../kernel/decimal.js';
import type { Money } from '../../kernel/money.js';
import type { TaxCategory } from './category.js';

/** Are typed amounts before tax (`none`) or with the tax already in them (`tax`)? */
export type PricesInclude = 'none' | 'tax';

/**
 * What to do when a whole net cannot reach a price promised with tax: `rounding` lets BT-114 bring the amount due to the
 * promised figure; `cent` states the nearest total that is not above it, and the page says so.
 */
export type GrossPolicy = 'rounding' | 'cent';

/** A line as it is asked: quantity × price ÷ base quantity, less its allowances, plus its charges. */
export type TaxedLine = {
  /** BT-129, may be negative (an earlier invoice deducted). */
  readonly quantity: Decimal;
  /** BT-146, major units, never negative, any number of decimals. */
  readonly price: Decimal;
  /** BT-149, above nought; 1 when left out. */
  readonly baseQuantity?: Decimal;
  readonly category: TaxCategory;
  /** BT-152 in per cent; nought when left out. */
  readonly rate?: Decimal;
  readonly allowances?: readonly Money[];
  readonly charges?: readonly Money[];
};

/** An allowance or charge on the whole document, within one category and rate. */
export type TaxedAmount = {
  readonly amount: Money;
  readonly category: TaxCategory;
  readonly rate?: Decimal;
};

export type TaxQuestion = {
  readonly currency: CurrencyCode;
  readonly lines: readonly TaxedLine[];
  readonly allowances?: readonly TaxedAmount[];
  readonly charges?: readonly TaxedAmount[];
  /** A discount on the whole, to be shared over the groups. */
  readonly spreadDiscount?: Money;
  /** BT-113. */
  readonly prepaid?: Money;
  /** BT-114, signed. */
  readonly rounding?: Money;
  readonly pricesInclude?: PricesInclude;
  readonly grossPolicy?: GrossPolicy;
};

/** A line as it stands on the paper: always net. */
export type NetLine = {
  readonly net: Money;
  /** BT-146 before tax. */
  readonly price: Decimal;
  readonly allowances: readonly Money[];
  readonly charges: readonly Money[];
};

/** An allowance or charge as it stands on the paper: net, its rate filled in. */
export type NetAmount = Required<TaxedAmount> & {
  /** Did it come out of `spreadDiscount`? */
  readonly spread: boolean;
};

export type TaxGroup = {
  readonly category: TaxCategory;
  readonly rate: Decimal;
  /** BT-116. */
  readonly base: Money;
  /** BT-117. */
  readonly tax: Money;
};

/** The document totals by their business terms. */
export type TaxTotals = {
  readonly 'BT-106': Money;
  readonly 'BT-107': Money;
  readonly 'BT-108': Money;
  readonly 'BT-109': Money;
  readonly 'BT-110': Money;
  readonly 'BT-112': Money;
  readonly 'BT-113': Money;
  readonly 'BT-114': Money;
  readonly 'BT-115': Money;
};

export type TaxAnswer = TaxTotals & {
  readonly lines: readonly NetLine[];
  readonly allowances: readonly NetAmount[];
  readonly charges: readonly NetAmount[];
  readonly groups: readonly TaxGroup[];
  /** Promised with tax minus BT-112, when prices are kept with tax: what a whole net could not reach. */
  readonly unreached: Money;
};
