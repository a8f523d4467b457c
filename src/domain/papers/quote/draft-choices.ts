import type { QuoteKind } from '../../house/studio.js';
import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { Money } from '../../kernel/money.js';
import type { Share } from '../../kernel/share.js';
import type { Agreement } from './quote-words.js';

/** Is a garment of the commission in this quote, and how many fittings does its price include? */
export type GarmentChoice = {
  readonly garmentId: string;
  readonly included: boolean;
  readonly fittings: number | undefined;
};

/** Something offered beside the price; of one garment, or of the whole. */
export type OptionChoice = {
  readonly text: string;
  readonly garmentId: string | undefined;
  /** Before tax or with it, as the studio keeps its prices. */
  readonly price: Money;
  readonly taken: boolean;
};

/** The deposit rules a quote can state; `amount` is this quote's own, the others begin as the commission's. */
export const QUOTE_DEPOSITS = ['none', 'share', 'materials-and-labour', 'amount'] as const;

/** What a maker chooses for a quote; everything else follows from the commission and the house. */
export type DraftChoices = {
  readonly garments: readonly GarmentChoice[];
  readonly options: readonly OptionChoice[];
  readonly kind: QuoteKind;
  /** What an hour is charged at, where the work is charged by time. */
  readonly hourPrice: Money | undefined;
  readonly validUntil: CalendarDate | undefined;
  /** Words before the work. */
  readonly opening: string;
  /** One a line. */
  readonly exclusions: string;
  readonly clothWording: string;
  /** One a line. */
  readonly terms: string;
  readonly depositRule: (typeof QUOTE_DEPOSITS)[number];
  readonly depositShare: Share;
  readonly depositAmount: Money | undefined;
  /** What the commission's discount is for. */
  readonly discountReason: string;
  /** May the paper say how many hours the price rests on? */
  readonly showHours: boolean;
};

/** What the house calls a kind of price, as the paper states it. */
export const AGREEMENT_OF: Readonly<Record<QuoteKind, Agreement>> = {
  fixed: 'fixed-price',
  estimate: 'estimate',
  time: 'time',
};
