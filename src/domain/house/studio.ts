import type { Instant } from '../kernel/calendar-date.js';
import type { CurrencyCode } from '../kernel/currency.js';
import type { Decimal } from '../kernel/decimal.js';
import type { Money } from '../kernel/money.js';
import type { Share } from '../kernel/share.js';
import type { PaperChoices } from './paper-choices.js';

/** EN 16931 tax category codes that a studio's work may fall under. */
export const TAX_CATEGORIES = ['S', 'Z', 'E', 'AE', 'O', 'G', 'K'] as const;
export type TaxCategory = (typeof TAX_CATEGORIES)[number];

/** What a paper says it is: a price that binds, a careful guess, or time as it is taken. */
export const QUOTE_KINDS = ['fixed', 'estimate', 'time'] as const;
export type QuoteKind = (typeof QUOTE_KINDS)[number];

export const DEPOSIT_RULES = ['none', 'share', 'materials-and-labour'] as const;
export type DepositRule = (typeof DEPOSIT_RULES)[number];

/** The first-run question "do you usually run over?". */
export const OVERRUNS = ['unknown', 'no', 'a-little', 'a-lot'] as const;
export type Overruns = (typeof OVERRUNS)[number];

export const CERTAINTIES = ['0.5', '0.8', '0.9'] as const;
export type Certainty = (typeof CERTAINTIES)[number];

/** Who the studio is, as its papers say it. */
export type StudioIdentity = {
  readonly name: string;
  readonly maker: string;
  readonly address: string;
  readonly country: string;
  readonly email: string;
  readonly phone: string;
  readonly website: string;
  readonly currency: CurrencyCode;
  readonly zone: string;
  readonly locale: string;
  readonly lengthUnit: 'cm' | 'in';
  readonly clothUnit: 'm' | 'yd';
};

/** How the studio stands towards tax. The program states figures; it gives no tax advice. */
export type StudioTax = {
  readonly registered: boolean;
  readonly taxNumber: string;
  readonly companyNumber: string;
  readonly category: TaxCategory;
  /** Percent, e.g. 21. */
  readonly rate: Decimal;
  readonly reason: string;
  readonly pricesInclude: 'none' | 'tax';
};

/** What a new quote begins with. */
export type PricingChoices = {
  readonly certainty: Certainty;
  readonly profitBasis: 'margin' | 'markup';
  readonly profitShare: Share;
  readonly handlingShare: Share;
  readonly minimumCharge: Money | undefined;
  readonly rushShare: Share;
  readonly rushOn: 'labour' | 'price';
  /** Prices go up to a multiple of this. */
  readonly roundTo: Money;
  readonly depositRule: DepositRule;
  readonly depositShare: Share;
};

/** What a new quote says. */
export type QuoteChoices = {
  readonly series: string;
  readonly days: number;
  readonly kind: QuoteKind;
  readonly terms: string;
  readonly clothWording: string;
  readonly exclusions: string;
  readonly fittingsIncluded: number;
};

/** The house: identity, tax, pricing and papers' choices. All of it can be changed, none of it alters what was issued. */
export type Studio = {
  readonly version: number;
  readonly identity: StudioIdentity;
  readonly tax: StudioTax;
  readonly pricing: PricingChoices;
  readonly quotes: QuoteChoices;
  readonly commissionSeries: string;
  readonly papers: PaperChoices;
  readonly overruns: Overruns;
  readonly sheet: 'A4' | 'Letter';
  readonly accent: string;
  readonly keysOn: boolean;
  readonly bareTime: 'ask' | 'minutes' | 'hours';
  readonly firstRunDone: Instant | undefined;
};
