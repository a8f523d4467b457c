import { z } from 'zod';
import { OVERHEAD_BASES } from '../../domain/costing/cost-lines.js';
import { Invalid } from '../../domain/kernel/errors.js';
import { Money } from '../../domain/kernel/money.js';
import { MODES } from '../../domain/making/mode.js';
import type { WorkingYear } from '../../domain/rates/hourly-rate.js';
import type { Machine } from '../../domain/rates/machine-rate.js';
import type { OverheadItem, PersonTerms } from '../../domain/rates/rate-workings.js';
import { line, oneOf, optionalLine } from '../fields/fields.js';
import type { FieldKit } from '../fields/kits.js';

/** The pool an item goes into where none is named. */
export const ONE_POOL = 'Workroom';
export const MOST_ITEMS = 40;

/** Weeks, hours and the share of them that goes into garments. */
export const yearFields = (kit: FieldKit) => ({
  weeks: kit.number('Say how many weeks of the year you work.', { most: 53 }),
  hoursAWeek: kit.number('Say how many hours a week you work.', { most: 168 }),
  productiveShare: kit.share('Say how much of that time goes into garments.'),
});

/** @throws Invalid at the field, where a year holds no hour */
export const yearOf = (said: WorkingYear): WorkingYear => {
  const { weeks, hoursAWeek, productiveShare } = said;
  for (const [field, value] of Object.entries({ weeks, hoursAWeek, productiveShare }))
    if (value.lte(0)) throw Invalid.field(field, 'This must be above 0.');
  return { weeks, hoursAWeek, productiveShare };
};

/** The pay of one year, and what is paid on top of it. */
export const payFields = (kit: FieldKit) => ({
  pay: kit.money('Say what you want to be paid in a year, before your own taxes.'),
  onCosts: kit.optionalMoney(),
});

/** One line of overhead; pool and base may be left out. */
export const overheadFields = (kit: FieldKit) =>
  z
    .strictObject({
      name: line('Name this cost.', 100),
      amount: kit.money('Say what it costs in a year.'),
      pool: optionalLine(60),
      base: z.union([oneOf(OVERHEAD_BASES), z.literal('')]).default(''),
    })
    .transform(
      (said): OverheadItem => ({
        ...said,
        pool: said.pool || ONE_POOL,
        base: said.base || 'productive-hours',
      }),
    );

export const overheadList = (kit: FieldKit) =>
  z
    .array(overheadFields(kit))
    .max(MOST_ITEMS, `At most ${MOST_ITEMS} items. Put small ones together.`)
    .default([]);

/** What an hour of each mode costs where it is not the plain one. */
export const modeFields = (kit: FieldKit) =>
  z
    .strictObject(Object.fromEntries(MODES.map((mode) => [mode, kit.optionalMoney()])))
    .default({})
    .transform((said): PersonTerms['perHourByMode'] =>
      Object.fromEntries(Object.entries(said).filter(([, amount]) => amount !== undefined)),
    );

export const machineFields = (kit: FieldKit) =>
  z
    .strictObject({
      price: kit.money('Say what the machine cost.'),
      residualValue: kit.money('Say what it will still be worth, 0 for nothing.'),
      lifeHours: kit.number('Say how many hours it will run.', { most: 200_000 }),
      upkeepPerHour: kit.money('Say what upkeep costs an hour, 0 for nothing.'),
      powerPerHour: kit.money('Say what power costs an hour, 0 for nothing.'),
    })
    .transform(
      (said): Machine => ({
        ...said,
        upkeepPerHour: said.upkeepPerHour.toDecimal(),
        powerPerHour: said.powerPerHour.toDecimal(),
      }),
    );

/** A person's terms out of pay, year and the rest. */
export const personOf = (said: {
  readonly name: string;
  readonly pay: Money;
  readonly onCosts?: Money | undefined;
  readonly year?: WorkingYear | undefined;
  readonly plainPerHour?: Money | undefined;
  readonly perHourByMode?: PersonTerms['perHourByMode'];
}): PersonTerms => ({
  name: said.name,
  pay: said.pay,
  onCosts:
    said.onCosts && !said.onCosts.isZero() ? [{ name: 'On top of the pay', amount: said.onCosts }] : [],
  ...(said.plainPerHour && { plainPerHour: said.plainPerHour }),
  ...(said.year && { year: said.year }),
  perHourByMode: said.perHourByMode ?? {},
});

export const noPay = (currency: string): Money => Money.zero(currency);

/** What most workrooms pay for, offered to be filled in. */
export const COMMON_OVERHEAD = [
  'Rent',
  'Light and heat',
  'Insurance',
  'Needles, pins, chalk and notions',
  'Telephone, post and the books',
] as const;
