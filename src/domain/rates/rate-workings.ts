import type { OverheadBase } from '../costing/cost-lines.js';
import type { CurrencyCode } from '../kernel/currency.js';
import type { Decimal } from '../kernel/decimal.js';
import type { Money } from '../kernel/money.js';
import type { Mode } from '../making/mode.js';
import type { WorkingYear, YearlyCost } from './hourly-rate.js';
import type { Machine } from './machine-rate.js';

/** One person's hour: worked out from a year's pay, or said plainly (a helper, an outworker). */
export type PersonTerms = {
  readonly name: string;
  /** Pay wanted a year; nought where `plainPerHour` says what the hour costs. */
  readonly pay: Money;
  /** Paid on top of the pay: pension, insurance of the person. */
  readonly onCosts: readonly YearlyCost[];
  readonly plainPerHour?: Money;
  /** Left out for a plain hour of which nobody knows how many there will be; overhead is then not spread over it. */
  readonly year?: WorkingYear;
  /** Where one mode is dearer or cheaper than the rest. */
  readonly perHourByMode: Partial<Record<Mode, Money>>;
};

/** One yearly cost of the workroom, and the pool it is gathered into. */
export type OverheadItem = YearlyCost & { readonly pool: string; readonly base: OverheadBase };

/** Everything a rate card is worked out from: the answers as they were given. */
export type RateWorkings = {
  readonly currency: CurrencyCode;
  /** The first is the maker whose hour is meant where nobody is named; at least one. */
  readonly people: readonly PersonTerms[];
  readonly overhead: readonly OverheadItem[];
  readonly machine?: Machine;
  /** Needed by pools that go by machine hours. */
  readonly machineHoursAYear?: Decimal;
  /** Needed by pools that go by the cost of material. */
  readonly materialsAYear?: Money;
};
