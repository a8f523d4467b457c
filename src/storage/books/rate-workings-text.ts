import { Decimal } from '../../domain/kernel/decimal.js';
import { Money } from '../../domain/kernel/money.js';
import { MODES } from '../../domain/making/mode.js';
import type { PersonTerms, RateWorkings } from '../../domain/rates/rate-workings.js';

/** Workings as JSON keeps them: decimals and amounts as text. */
type Kept<T> = T extends Decimal | Money
  ? string
  : T extends readonly (infer E)[]
    ? Kept<E>[]
    : T extends object
      ? { [K in keyof T]: Kept<T[K]> }
      : T;

export const rateWorkingsText = (workings: RateWorkings): string =>
  // Money writes itself as a plain amount, a decimal as a plain numeral.
  JSON.stringify(workings);

/** @param relabel another currency to read the same figures in, rounded to its decimals */
export const rateWorkingsOf = (text: string, relabel?: string): RateWorkings => {
  const kept = JSON.parse(text) as Kept<RateWorkings>;
  const currency = relabel ?? kept.currency;
  const money = (amount: string): Money => Money.rounded(new Decimal(amount), currency);
  const costs = (items: { name: string; amount: string }[]) =>
    items.map(({ name, amount }) => ({ name, amount: money(amount) }));
  const { machine } = kept;
  return {
    currency,
    people: kept.people.map((person) => personOf(person, money, costs)),
    overhead: kept.overhead.map((item) => ({ ...item, amount: money(item.amount) })),
    ...(machine && {
      machine: {
        price: money(machine.price),
        residualValue: money(machine.residualValue),
        lifeHours: new Decimal(machine.lifeHours),
        upkeepPerHour: new Decimal(machine.upkeepPerHour),
        powerPerHour: new Decimal(machine.powerPerHour),
      },
    }),
    ...(kept.machineHoursAYear && { machineHoursAYear: new Decimal(kept.machineHoursAYear) }),
    ...(kept.materialsAYear && { materialsAYear: money(kept.materialsAYear) }),
  };
};

const personOf = (
  kept: Kept<PersonTerms>,
  money: (amount: string) => Money,
  costs: (items: { name: string; amount: string }[]) => PersonTerms['onCosts'],
): PersonTerms => ({
  name: kept.name,
  pay: money(kept.pay),
  onCosts: costs(kept.onCosts),
  ...(kept.plainPerHour && { plainPerHour: money(kept.plainPerHour) }),
  ...(kept.year && {
    year: {
      weeks: new Decimal(kept.year.weeks),
      hoursAWeek: new Decimal(kept.year.hoursAWeek),
      productiveShare: new Decimal(kept.year.productiveShare),
    },
  }),
  perHourByMode: Object.fromEntries(
    MODES.flatMap((mode) => {
      const amount = kept.perHourByMode[mode];
      return amount ? [[mode, money(amount)]] : [];
    }),
  ),
});
