import type { CurrencyCode } from '../kernel/currency.js';
import { Decimal } from '../kernel/decimal.js';
import { type FieldTrouble, Invalid, OutOfRange } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import type { Share } from '../kernel/share.js';

/** A year at the bench: weeks worked, hours a week, and the share of them that goes into garments. */
export type WorkingYear = {
  readonly weeks: Decimal;
  readonly hoursAWeek: Decimal;
  readonly productiveShare: Share;
};

export type YearHours = { readonly worked: Decimal; readonly productive: Decimal };

const yearTroubles = ({ weeks, hoursAWeek, productiveShare }: WorkingYear): FieldTrouble[] => [
  ...(weeks.gt(0) && weeks.lte(53)
    ? []
    : [{ field: 'weeks', text: 'Weeks worked in a year: above 0, at most 53.' }]),
  ...(hoursAWeek.gt(0) && hoursAWeek.lte(168)
    ? []
    : [{ field: 'hoursAWeek', text: 'Hours in a week: above 0, at most 168.' }]),
  ...(productiveShare.gt(0) && productiveShare.lte(1)
    ? []
    : [{ field: 'productiveShare', text: 'The productive share lies above 0 and up to 1 (0.62 is 62 %).' }]),
];

/**
 * How many hours a year holds, and how many of them a client can pay for: weeks × hours a week × productive share.
 *
 * @param year weeks above 0 to 53, hours above 0 to 168, share above 0 to 1
 * @returns hours, unrounded
 * @throws Invalid naming each field out of its range
 * @see test/reference/costing/worked-sums.test.ts WS-1, WS-9
 */
export const hoursOfYear = (year: WorkingYear): YearHours => {
  const troubles = yearTroubles(year);
  const [first] = troubles;
  if (first) throw new Invalid(first.text, troubles);
  const worked = year.weeks.times(year.hoursAWeek);
  return { worked, productive: worked.times(year.productiveShare) };
};

/** A yearly cost with its name, such as rent, insurance, or a pension paid on top of the pay. */
export type YearlyCost = { readonly name: string; readonly amount: Money };

export type HourlyRate = {
  readonly hours: YearHours;
  /** pay + on-costs. */
  readonly labourAYear: Money;
  readonly overheadAYear: Money;
  /** Unrounded, major units an hour. */
  readonly labour: Decimal;
  readonly overhead: Decimal;
  readonly total: Decimal;
  /** The same, rounded for showing. */
  readonly shown: { readonly labour: Money; readonly overhead: Money; readonly total: Money };
  readonly parts: { readonly onCosts: readonly YearlyCost[]; readonly overhead: readonly YearlyCost[] };
};

/**
 * What an hour at the bench must earn: (pay + on-costs + overhead) / productive hours.
 *
 * @param terms pay wanted a year, on-costs and overhead by item, none negative; the working year
 * @returns the labour and overhead part of the hour, unrounded and as shown (half away from zero)
 * @throws Invalid when the year cannot be meant, or a cost is negative
 * @see test/reference/costing/worked-sums.test.ts WS-1
 */
export const hourlyRate = (terms: {
  readonly currency: CurrencyCode;
  readonly pay: Money;
  readonly onCosts?: readonly YearlyCost[];
  readonly overhead?: readonly YearlyCost[];
  readonly year: WorkingYear;
}): HourlyRate => {
  const { currency, pay, onCosts = [], overhead = [] } = terms;
  if (pay.isNegative()) throw Invalid.field('pay', 'The pay wanted cannot be below 0.');
  const below = [...onCosts, ...overhead].find((item) => item.amount.isNegative());
  if (below) throw new Invalid(`“${below.name}” cannot be below 0.`);
  const hours = hoursOfYear(terms.year);
  const labourAYear = pay.plus(
    Money.sum(
      onCosts.map((item) => item.amount),
      currency,
    ),
  );
  const overheadAYear = Money.sum(
    overhead.map((item) => item.amount),
    currency,
  );
  const labour = labourAYear.toDecimal().div(hours.productive);
  const perHour = overheadAYear.toDecimal().div(hours.productive);
  const total = labour.plus(perHour);
  return {
    hours,
    labourAYear,
    overheadAYear,
    labour,
    overhead: perHour,
    total,
    shown: {
      labour: Money.rounded(labour, currency),
      overhead: Money.rounded(perHour, currency),
      total: Money.rounded(total, currency),
    },
    parts: { onCosts, overhead },
  };
};

/**
 * The hour sold with a profit on the price: total / (1 − margin).
 *
 * @param total what the hour costs, major units, not negative
 * @param margin 0 up to, not including, 1
 * @returns money an hour, unrounded
 * @throws OutOfRange if margin is negative or reaches 1
 * @see test/reference/costing/worked-sums.test.ts WS-1
 */
export const hourWithMargin = (total: Decimal, margin: Share): Decimal => {
  if (margin.lt(0) || margin.gte(1)) throw new OutOfRange('A margin runs from 0 up to, not including, 1.');
  return total.div(new Decimal(1).minus(margin));
};

/** The year that tempts: every week of it, forty hours each, every hour sold. */
export const TEMPTING_YEAR: WorkingYear = {
  weeks: new Decimal(52),
  hoursAWeek: new Decimal(40),
  productiveShare: new Decimal(1),
};

/**
 * The trap: the same pay over 52 weeks of 40 hours, as if there were no holidays, no post, no sweeping and no rent.
 *
 * Shown beside the true rate, because this is what most people work out first.
 *
 * @param pay pay wanted a year
 * @returns money an hour, rounded half away from zero
 * @see test/reference/costing/worked-sums.test.ts WS-2
 */
export const temptingRate = (pay: Money): Money =>
  Money.rounded(pay.toDecimal().div(hoursOfYear(TEMPTING_YEAR).productive), pay.currency);
