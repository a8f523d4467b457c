import { z } from 'zod';
import { Invalid } from '../../domain/kernel/errors.js';
import { MODES } from '../../domain/making/mode.js';
import type { PersonTerms, RateWorkings } from '../../domain/rates/rate-workings.js';
import { date, line } from '../../web/fields/fields.js';
import type { FieldKit } from '../../web/fields/kits.js';
import { closedUp, rowsTyped } from '../../web/forms/closed-up.js';
import { parse, parseForm } from '../../web/forms/parse.js';
import type { Typed } from '../../web/forms/typed.js';
import {
  machineFields,
  modeFields,
  noPay,
  overheadList,
  payFields,
  personOf,
  yearFields,
  yearOf,
} from '../../web/rates/working-fields.js';
import { moneyForField } from '../../web/words/amounts.js';
import { shareForField } from '../../web/words/shares.js';
import type { Change } from './set-rates.js';

/** A change as a form says it, and the day it begins. */
export type Dated = { readonly from: string; readonly change: Change };

export const person = () => line('Say whose hour this is.', 100);
export const bases = (kit: FieldKit) => ({
  machineHoursAYear: kit.optionalNumber({ most: 200_000 }),
  materialsAYear: kit.optionalMoney(),
});

const HourForm = (kit: FieldKit) =>
  z.strictObject({
    from: date('Say from which day this holds.'),
    name: person(),
    ...payFields(kit),
    ...yearFields(kit),
    overhead: overheadList(kit),
    ...bases(kit),
  });

const TELLING = ['amount'];

/** The form's rows closed up; a name without an amount is only a suggestion. */
export const tidyHour = (typed: Typed): Typed => closedUp(typed, 'overhead', TELLING).typed;

/** Reads the form that works out the maker's hour. @throws Invalid */
export const readHour = (kit: FieldKit, typed: Typed): Dated => {
  const { rest, rows } = closedUp(typed, 'overhead', TELLING);
  const bare = Object.fromEntries(
    Object.entries(rest).filter(([name]) => !['once', 'version', 'commit'].includes(name)),
  );
  const said = parse(HourForm(kit), { ...bare, overhead: rows });
  const year = yearOf(said);
  return {
    from: said.from,
    change: (inForce): RateWorkings => {
      const [first, ...others] = inForce?.people ?? [];
      return {
        ...inForce,
        currency: kit.currency,
        people: [
          personOf({ ...said, year, ...(first && { perHourByMode: first.perHourByMode }) }),
          ...others,
        ],
        overhead: said.overhead,
        machineHoursAYear: said.machineHoursAYear,
        materialsAYear: said.materialsAYear,
      };
    },
  };
};

/** The workings in force as the hour form's fields. */
export const typedHour = (workings: RateWorkings, locale: string): Record<string, string> => ({
  ...typedPerson(workings.people[0], locale),
  machineHoursAYear: workings.machineHoursAYear?.toFixed() ?? '',
  materialsAYear: workings.materialsAYear ? moneyForField(workings.materialsAYear, locale) : '',
  ...rowsTyped(
    'overhead',
    workings.overhead.map(({ name, amount, pool, base }) => ({
      name,
      amount: moneyForField(amount, locale),
      pool,
      base,
    })),
  ),
});

const PersonForm = (kit: FieldKit) =>
  z.strictObject({
    from: date('Say from which day this holds.'),
    name: person(),
    pay: kit.optionalMoney(),
    onCosts: kit.optionalMoney(),
    plainPerHour: kit.optionalMoney(),
    weeks: kit.optionalNumber({ most: 53 }),
    hoursAWeek: kit.optionalNumber({ most: 168 }),
    productiveShare: z.string().default(''),
    ...Object.fromEntries(MODES.map((mode) => [`mode-${mode}`, kit.optionalMoney()])),
  });

/** Reads the form of one person. @param place which of the card's people; a new one when left out @throws Invalid */
export const readPerson = (kit: FieldKit, typed: Typed, place?: number): Dated => {
  const said = parseForm(PersonForm(kit), typed);
  const hasYear = [said.weeks, said.hoursAWeek].some((value) => value && !value.isZero());
  if (!said.plainPerHour && !said.pay)
    throw Invalid.field('pay', 'Give the pay of a year, or what an hour costs.');
  const yearTyped = Object.fromEntries(
    ['weeks', 'hoursAWeek', 'productiveShare'].map((name) => [name, typed[name] ?? '']),
  );
  const year =
    said.plainPerHour && !hasYear ? undefined : yearOf(parse(z.object(yearFields(kit)), yearTyped));
  const modes = Object.fromEntries(MODES.map((mode) => [mode, typed[`mode-${mode}`] ?? '']));
  const terms = personOf({
    ...said,
    pay: said.pay ?? noPay(kit.currency),
    year,
    perHourByMode: modeFields(kit).parse(modes),
  });
  return {
    from: said.from,
    change: (inForce): RateWorkings => {
      const people = [...(inForce?.people ?? [])];
      if (people.some(({ name }, index) => name === terms.name && index !== place))
        throw Invalid.field('name', 'Somebody of this name is on the card already.');
      people.splice(place ?? people.length, place === undefined ? 0 : 1, terms);
      return { overhead: [], ...inForce, currency: kit.currency, people };
    },
  };
};

/** A person's terms as fields. */
export const typedPerson = (terms: PersonTerms | undefined, locale: string): Record<string, string> =>
  terms
    ? {
        name: terms.name,
        pay: terms.pay.isZero() && terms.plainPerHour ? '' : moneyForField(terms.pay, locale),
        onCosts: terms.onCosts[0] ? moneyForField(terms.onCosts[0].amount, locale) : '',
        plainPerHour: terms.plainPerHour ? moneyForField(terms.plainPerHour, locale) : '',
        weeks: terms.year?.weeks.toFixed() ?? '',
        hoursAWeek: terms.year?.hoursAWeek.toFixed() ?? '',
        productiveShare: terms.year ? shareForField(terms.year.productiveShare) : '',
        ...Object.fromEntries(
          Object.entries(terms.perHourByMode).map(([mode, amount]) => [
            `mode-${mode}`,
            moneyForField(amount, locale),
          ]),
        ),
      }
    : {};

const MachineForm = (kit: FieldKit) =>
  z.object({ from: date('Say from which day this holds.'), machineHoursAYear: bases(kit).machineHoursAYear });

/** Reads the form of the machine. @throws Invalid */
export const readMachine = (kit: FieldKit, typed: Typed): Dated => {
  const { from, machineHoursAYear, once: _o, version: _v, ...fields } = typed;
  const said = parse(MachineForm(kit), { from, machineHoursAYear });
  const machine = parse(machineFields(kit), fields);
  return {
    from: said.from,
    change: (inForce): RateWorkings => {
      if (!inForce) throw new Invalid('Work out the hour first.');
      return { ...inForce, machine, machineHoursAYear: said.machineHoursAYear };
    },
  };
};

export const typedMachine = (workings: RateWorkings, locale: string): Record<string, string> => {
  const { machine } = workings;
  const machineHoursAYear = workings.machineHoursAYear?.toFixed() ?? '';
  if (!machine) return { residualValue: '0', upkeepPerHour: '0', powerPerHour: '0', machineHoursAYear };
  return {
    price: moneyForField(machine.price, locale),
    residualValue: moneyForField(machine.residualValue, locale),
    lifeHours: machine.lifeHours.toFixed(),
    upkeepPerHour: machine.upkeepPerHour.toFixed(),
    powerPerHour: machine.powerPerHour.toFixed(),
    machineHoursAYear,
  };
};
