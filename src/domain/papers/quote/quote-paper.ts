import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { CurrencyCode } from '../../kernel/currency.js';
import type { Decimal } from '../../kernel/decimal.js';
import type { Money } from '../../kernel/money.js';
import type { DraftAmount, DraftLine } from '../model/make-paper.js';
import type { Paper } from '../model/paper.js';
import type { Buyer, Seller } from '../model/party.js';
import type { TaxCategory } from '../tax/category.js';
import type { GrossPolicy, PricesInclude } from '../tax/tax-question.js';
import type { Deposit, DepositRule } from './deposit.js';
import type { Agreement } from './quote-words.js';

/** One line of what a garment is, in the words the client reads. */
export type ScopeLine = { readonly text: string };

export type QuotedGarment = {
  readonly ref: string;
  readonly name: string;
  readonly wearer?: string;
  readonly scope: readonly ScopeLine[];
  /** How many fittings the price includes. */
  readonly fittings?: number;
  readonly ready?: CalendarDate;
  /** Before tax or with it, as the quote's `pricesInclude` says. */
  readonly price: Money;
  readonly category: TaxCategory;
  readonly rate?: Decimal;
  /** Materials and labour as charged, before tax, for a deposit reckoned from them. */
  readonly materials?: Money;
  readonly labour?: Money;
};

/** Something offered beside the price: not in the totals until it is taken. */
export type QuoteOption = {
  readonly ref: string;
  readonly text: string;
  readonly garmentRef?: string;
  readonly price: Money;
  readonly category: TaxCategory;
  readonly rate?: Decimal;
  readonly taken?: boolean;
};

/** A quote as a room knows it before anything is worked out. */
export type QuoteDraft = {
  readonly number?: string;
  /** From 1 on. */
  readonly version: number;
  readonly issued?: CalendarDate;
  readonly validUntil?: CalendarDate;
  readonly agreement?: Agreement;
  /** The hour's price, needed when the work is charged by time. */
  readonly hourPrice?: Money;
  readonly currency: CurrencyCode;
  readonly seller: Seller;
  readonly client: Buyer;
  /** Is the seller registered for tax? */
  readonly registeredForTax: boolean;
  readonly taxReasons?: Partial<Record<TaxCategory, string>>;
  readonly garments: readonly QuotedGarment[];
  /** Lines that belong to no garment, such as a courier. */
  readonly otherLines?: readonly DraftLine[];
  readonly charges?: readonly DraftAmount[];
  readonly discount?: { readonly amount: Money; readonly reason: string };
  readonly options?: readonly QuoteOption[];
  readonly exclusions?: readonly string[];
  readonly clothPrice?: string;
  readonly dates?: readonly { readonly what: string; readonly on: CalendarDate }[];
  readonly terms?: readonly string[];
  readonly deposit?: DepositRule;
  readonly orderNumber?: string;
  readonly note?: string;
  readonly pricesInclude?: PricesInclude;
  readonly grossPolicy?: GrossPolicy;
};

/** A garment with what it comes to: net, and its share of the amount due with tax; what it costs stays behind. */
export type PricedGarment = Omit<QuotedGarment, 'materials' | 'labour'> & {
  readonly net: Money;
  readonly gross: Money;
  readonly deposit: Money;
};

export type PricedOption = QuoteOption & { readonly net: Money; readonly gross: Money };

/** The quote as it goes on paper. */
export type QuotePaper = Omit<QuoteDraft, 'garments' | 'options' | 'deposit'> & {
  readonly garments: readonly PricedGarment[];
  readonly options: readonly PricedOption[];
  readonly deposit: Deposit;
  readonly depositRule: DepositRule;
  /** Lines, tax groups and totals by their business terms. */
  readonly paper: Paper;
  /** Why no tax is charged, or nothing. */
  readonly taxNotes: readonly string[];
  readonly agreementSentence?: string;
  /** One sentence when a price with tax could not be reached. */
  readonly unreachedSentence?: string;
  readonly acceptance: { readonly garments: readonly string[]; readonly lines: readonly string[] };
  readonly caution: string;
};
