import { nameOnCard } from '../../bench/person.js';
import type { TimedWork } from '../../bench/worked.js';
import type { OperationLine, OverheadPool } from '../../costing/cost-lines.js';
import { costTime, rateOfOperation } from '../../costing/time-cost.js';
import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { CurrencyCode } from '../../kernel/currency.js';
import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';
import { type RateCard, rateCard } from '../../rates/rate-card.js';
import { rateOn } from '../../rates/rate-on.js';

/** One column of a cost sheet under way: minutes and money, and the lines of time behind them. */
export type CostColumn = {
  readonly minutes: Decimal;
  readonly materials: Money;
  readonly labour: Money;
  readonly machine: Money;
  readonly overhead: Money;
  readonly overheadByPool: ReadonlyMap<string, Money>;
  /** Of the overhead, what goes by time and not by the cost of materials. */
  readonly overheadOfTime: Money;
  readonly expenses: Money;
  /** materials + labour + machine + overhead + expenses. */
  readonly cost: Money;
  readonly operations: readonly OperationLine[];
};

/** What an hour of somebody costs on a day. */
export type Hour = Pick<RateCard, 'from' | 'perHour' | 'perHourByMode' | 'machinePerHour'> & {
  readonly overhead: readonly OverheadPool[];
};

/** What an hour costs by day and person; of the workroom where nobody is named. */
export type HourOn = (day: CalendarDate, person?: string) => Hour;

/**
 * Which hour counts on a day: of the card that held then, and of the person of the same name on it. Work from before the
 * first card is taken at the first.
 *
 * @param cards at least one, in any order
 * @see rateOn; test/domain/commissions/landing/columns.test.ts
 */
export const hourOnFrom = (cards: readonly RateCard[]): HourOn => {
  const known = new Map<string, RateCard>();
  const first = cards.reduce((earliest, card) => (card.from < earliest.from ? card : earliest));
  return (day, person) => {
    const { from, workings } = rateOn(cards, day) ?? first;
    const names = workings.people.map(({ name }) => name);
    const name = person === undefined ? names[0] : nameOnCard(person, names);
    const key = `${from} ${name ?? ''}`;
    const hour = known.get(key) ?? rateCard(from, workings, name);
    known.set(key, hour);
    return hour;
  };
};

/** Time to be costed: of one operation in one mode. */
export type TimeToCost = { readonly name: string; readonly mode: string; readonly minutes: Decimal };

const perHourOf = (hour: Hour, mode: string): Decimal =>
  rateOfOperation(
    { mode },
    {
      perHour: hour.perHour.toDecimal(),
      perHourByMode: Object.fromEntries(
        Object.entries(hour.perHourByMode).map(([name, rate]) => [name, rate.toDecimal()]),
      ),
    },
  );

/** A column of time, materials and expenses at the rates of one card. */
const columnAt = (
  hour: Hour,
  time: readonly (TimeToCost & { readonly perHour: Decimal })[],
  materials: Money,
  expenses: Money,
): CostColumn => {
  const { currency } = hour.perHour;
  const cost = costTime(
    {
      currency,
      labour: { perHour: hour.perHour.toDecimal() },
      machinePerHour: hour.machinePerHour.toDecimal(),
      overhead: hour.overhead,
      operations: time,
    },
    time.map(({ minutes }) => minutes),
    materials,
  );
  const ofMaterials = cost.pools.filter(({ base }) => base === 'material-cost').map(({ amount }) => amount);
  const { labour, machine, overhead } = cost;
  return {
    minutes: cost.minutes,
    materials,
    labour,
    machine,
    overhead,
    overheadByPool: new Map(cost.pools.map(({ name, amount }) => [name, amount])),
    overheadOfTime: overhead.minus(Money.sum(ofMaterials, currency)),
    expenses,
    cost: Money.sum([materials, labour, machine, overhead, expenses], currency),
    operations: cost.operations,
  };
};

/** A column of nothing. */
export const noColumn = (currency: CurrencyCode): CostColumn => {
  const zero = Money.zero(currency);
  return {
    minutes: new Decimal(0),
    materials: zero,
    labour: zero,
    machine: zero,
    overhead: zero,
    overheadByPool: new Map(),
    overheadOfTime: zero,
    expenses: zero,
    cost: zero,
    operations: [],
  };
};

/** Two columns together, section by section. */
export const columnsTogether = (one: CostColumn, other: CostColumn): CostColumn => {
  const pools = new Map(one.overheadByPool);
  for (const [name, amount] of other.overheadByPool) pools.set(name, pools.get(name)?.plus(amount) ?? amount);
  return {
    minutes: one.minutes.plus(other.minutes),
    materials: one.materials.plus(other.materials),
    labour: one.labour.plus(other.labour),
    machine: one.machine.plus(other.machine),
    overhead: one.overhead.plus(other.overhead),
    overheadByPool: pools,
    overheadOfTime: one.overheadOfTime.plus(other.overheadOfTime),
    expenses: one.expenses.plus(other.expenses),
    cost: one.cost.plus(other.cost),
    operations: [...one.operations, ...other.operations],
  };
};

/** Money that a material took on a day: what was issued and wasted less what came back. */
export type MaterialUsed = { readonly on: CalendarDate; readonly cost: Money };

/**
 * What a garment has cost so far: each minute at the rate of its day, its person and its mode, machine hours and overhead at the
 * rates of that day's card, materials at what they left the shelf for.
 *
 * Minutes of one operation, mode and rate are rounded once; a pool once for each card.
 *
 * @param worked minutes of the entries that stand
 * @param used materials by the day they moved; below nought where something came back
 * @param expenses money out so far
 * @returns money half away from zero
 * @see test/domain/commissions/landing/columns.test.ts
 */
export const costSoFar = (
  worked: readonly TimedWork[],
  used: readonly MaterialUsed[],
  expenses: Money,
  hourOn: HourOn,
): CostColumn => {
  const { currency } = expenses;
  type Period = { hour: Hour; time: Map<string, TimeToCost & { perHour: Decimal }>; materials: Money };
  const periods = new Map<string, Period>();
  const periodOf = (hour: Hour): Period => {
    const known = periods.get(hour.from);
    if (known) return known;
    const fresh = { hour, time: new Map(), materials: Money.zero(currency) };
    periods.set(hour.from, fresh);
    return fresh;
  };
  for (const { on, personName, operationId, name, mode, minutes } of worked) {
    const hour = hourOn(on, personName);
    const perHour = perHourOf(hour, mode);
    const { time } = periodOf(hour);
    const key = `${operationId ?? ''} ${name} ${mode} ${perHour.toFixed()}`;
    const before = time.get(key)?.minutes ?? new Decimal(0);
    time.set(key, { name, mode, perHour, minutes: before.plus(minutes) });
  }
  for (const { on, cost } of used) {
    const period = periodOf(hourOn(on));
    period.materials = period.materials.plus(cost);
  }
  const nothing = Money.zero(currency);
  return [...periods.values()]
    .map(({ hour, time, materials }) => columnAt(hour, [...time.values()], materials, nothing))
    .reduce(columnsTogether, { ...noColumn(currency), expenses, cost: expenses });
};

/**
 * What is still to come, at the rates of one day: time, materials to be issued, expenses.
 *
 * @param hour of the workroom
 * @returns money half away from zero, each operation and pool rounded once
 */
export const costToCome = (
  time: readonly TimeToCost[],
  materials: Money,
  expenses: Money,
  hour: Hour,
): CostColumn =>
  columnAt(
    hour,
    time.map((line) => ({ ...line, perHour: perHourOf(hour, line.mode) })),
    materials,
    expenses,
  );
