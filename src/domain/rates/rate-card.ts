import type { OverheadBase, OverheadPool } from '../costing/cost-lines.js';
import type { CalendarDate } from '../kernel/calendar-date.js';
import { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import type { Mode } from '../making/mode.js';
import { hourlyRate, hoursOfYear } from './hourly-rate.js';
import { machineRate } from './machine-rate.js';
import { predeterminedRate } from './overhead-rate.js';
import type { OverheadItem, PersonTerms, RateWorkings } from './rate-workings.js';

/** What an hour costs from a date on, until the next card begins. */
export type RateCard = {
  readonly from: CalendarDate;
  readonly person: string;
  readonly perHour: Money;
  readonly perHourByMode: Partial<Record<Mode, Money>>;
  readonly machinePerHour: Money;
  /** Money an hour for hour bases, a share for cost bases; as shown, so that what is printed multiplies out. */
  readonly overhead: readonly OverheadPool[];
  /** The answers it was worked out from. */
  readonly workings: RateWorkings;
};

/** A pool with what its rate was worked out from. */
export type PoolWorking = OverheadPool & {
  readonly items: readonly OverheadItem[];
  readonly budget: Money;
  readonly budgetedBase: Decimal;
};

const SHARE_PLACES = 4;

/**
 * What a person's hour of work costs, without overhead: (pay + on-costs) / productive hours, or the plain hour.
 *
 * @returns money an hour, rounded half away from zero
 * @throws Invalid when there is neither a plain hour nor a year that can be meant
 */
export const labourPerHour = (person: PersonTerms): Money => {
  if (person.plainPerHour) {
    if (person.plainPerHour.isNegative()) throw Invalid.field('plainPerHour', 'An hour cannot cost below 0.');
    return person.plainPerHour;
  }
  if (!person.year)
    throw Invalid.field('weeks', 'Say how many weeks and hours are worked, or what an hour costs.');
  const { currency } = person.pay;
  return hourlyRate({ currency, pay: person.pay, onCosts: person.onCosts, year: person.year }).shown.labour;
};

const productiveHours = (person: PersonTerms): Decimal =>
  person.year ? hoursOfYear(person.year).productive : new Decimal(0);

const WITHOUT_BASE: Record<OverheadBase, string> = {
  'productive-hours': 'Nobody’s hours are known, so overhead cannot be spread over them.',
  'labour-cost': 'No labour cost is known, so overhead cannot be spread over it.',
  'machine-hours': 'Say how many machine hours a year holds, or let no pool go by them.',
  'material-cost': 'Say what is bought in a year, or let no pool go by the cost of material.',
};

const budgetedBase = (base: OverheadBase, workings: RateWorkings): Decimal => {
  const nought = new Decimal(0);
  const sum = (of: (person: PersonTerms) => Decimal) =>
    workings.people.reduce((total, person) => total.plus(of(person)), nought);
  if (base === 'machine-hours') return workings.machineHoursAYear ?? nought;
  if (base === 'material-cost') return workings.materialsAYear?.toDecimal() ?? nought;
  if (base === 'productive-hours') return sum(productiveHours);
  return sum((person) => labourPerHour(person).toDecimal().times(productiveHours(person)));
};

const isHours = (base: OverheadBase): boolean => base === 'productive-hours' || base === 'machine-hours';

/**
 * Overhead gathered into pools by name, each with its rate: budget / budgeted base.
 *
 * @returns rates of hour bases rounded to the minor unit, of cost bases to four decimals of a share, half away from zero
 * @throws Invalid when a pool's base is not above 0, or one pool goes by two bases
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), section 4.4; test/domain/rates/rate-card.test.ts
 */
export const overheadPools = (workings: RateWorkings): PoolWorking[] => {
  const pools = new Map<string, OverheadItem[]>();
  for (const item of workings.overhead) {
    if (item.amount.isNegative()) throw new Invalid(`“${item.name}” cannot be below 0.`);
    const others = pools.get(item.pool) ?? [];
    if (others.some(({ base }) => base !== item.base))
      throw new Invalid(`The pool “${item.pool}” goes by two bases. Give one of them another name.`);
    pools.set(item.pool, [...others, item]);
  }
  return [...pools.values()].map((items) => {
    const [{ pool, base }] = items as [OverheadItem];
    const budget = Money.sum(
      items.map(({ amount }) => amount),
      workings.currency,
    );
    const over = budgetedBase(base, workings);
    if (over.lte(0)) throw Invalid.field(`base.${base}`, WITHOUT_BASE[base]);
    const exact = predeterminedRate(budget, over);
    const rate = isHours(base)
      ? Money.rounded(exact, workings.currency).toDecimal()
      : exact.toDecimalPlaces(SHARE_PLACES);
    return { name: pool, base, rate, items, budget, budgetedBase: over };
  });
};

/**
 * A rate card out of the answers it rests on.
 *
 * @param from the date it begins to hold
 * @param workings at least one person; no amount negative
 * @param person whose hour; the first when left out or unknown
 * @throws Invalid naming the field that cannot be meant
 * @see test/domain/rates/rate-card.test.ts WS-1
 */
export const rateCard = (from: CalendarDate, workings: RateWorkings, person?: string): RateCard => {
  const [first] = workings.people;
  if (!first) throw Invalid.field('people', 'A rate needs at least one person who works.');
  const who = workings.people.find(({ name }) => name === person) ?? first;
  return {
    from,
    person: who.name,
    perHour: labourPerHour(who),
    perHourByMode: who.perHourByMode,
    machinePerHour: workings.machine
      ? Money.rounded(machineRate(workings.machine), workings.currency)
      : Money.zero(workings.currency),
    overhead: overheadPools(workings).map(({ name, base, rate }) => ({ name, base, rate })),
    workings,
  };
};

/**
 * What an hour by hand costs in all: labour + overhead by productive hours + overhead as a share of the labour.
 *
 * @returns the parts, rounded once each, and their sum
 * @see test/domain/rates/rate-card.test.ts WS-1
 */
export const workingHour = (card: RateCard): { labour: Money; overhead: Money; total: Money } => {
  const { currency } = card.perHour;
  const overhead = Money.sum(
    card.overhead
      .filter(({ base }) => base === 'productive-hours' || base === 'labour-cost')
      .map(({ base, rate }) =>
        base === 'labour-cost' ? card.perHour.timesRounded(rate) : Money.rounded(rate, currency),
      ),
    currency,
  );
  return { labour: card.perHour, overhead, total: card.perHour.plus(overhead) };
};
