import { z } from 'zod';
import { newStudio } from '../../../domain/house/new-studio.js';
import type { Overruns } from '../../../domain/house/studio.js';
import { OVERRUNS, type Studio } from '../../../domain/house/studio.js';
import type { RateWorkings } from '../../../domain/rates/rate-workings.js';
import { currency, line, oneOf, optionalLine, optionalLines } from '../../../web/fields/fields.js';
import { type FieldKit, typedKit } from '../../../web/fields/kits.js';
import { closedUp } from '../../../web/forms/closed-up.js';
import { parse, parseForm } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import { overheadList, payFields, personOf, yearFields, yearOf } from '../../../web/rates/working-fields.js';
import { isLocale } from '../choices.js';
import { taxFields, taxOf } from '../tax-said.js';

export const locale = () =>
  z.string('Choose how numbers are written.').refine(isLocale, 'Choose one of the ways offered.');

const HouseQuestions = (kit: FieldKit) =>
  z.strictObject({
    name: line('Give the studio its name, as it stands on the door.', 200),
    maker: line('Say who makes.', 200),
    address: optionalLines(1000),
    country: optionalLine(100),
    currency: currency(),
    locale: locale(),
    lengthUnit: oneOf(['cm', 'in']),
    clothUnit: oneOf(['m', 'yd']),
    ...taxFields(kit),
  });

/** A house out of the first page's answers. @param zone where the program runs @throws Invalid */
export const readHouse = (typed: Typed, zone: string): Omit<Studio, 'version'> => {
  const kit = typedKit({ currency: 'EUR', locale: isLocale(typed.locale ?? '') ? typed.locale! : 'en-GB' });
  const said = parseForm(HouseQuestions(kit), typed);
  const house = newStudio({ ...said, zone });
  const { address, country, lengthUnit, clothUnit } = said;
  return {
    ...house,
    identity: { ...house.identity, address, country, lengthUnit, clothUnit },
    tax: taxOf(said, house.tax),
  };
};

export const typedHouse = ({ identity, tax }: Omit<Studio, 'version'>): Record<string, string> => ({
  name: identity.name,
  maker: identity.maker,
  address: identity.address,
  country: identity.country,
  currency: identity.currency,
  locale: identity.locale,
  lengthUnit: identity.lengthUnit,
  clothUnit: identity.clothUnit,
  registered: tax.registered ? 'yes' : '',
  taxNumber: tax.taxNumber,
  category: tax.registered ? tax.category : 'S',
  rate: tax.rate.isZero() ? '' : tax.rate.toFixed(),
  reason: '',
});

const HourQuestions = (kit: FieldKit) =>
  z.strictObject({
    ...payFields(kit),
    ...yearFields(kit),
    overhead: overheadList(kit),
    overruns: oneOf(OVERRUNS, 'Choose what comes nearest.').default('unknown'),
  });

const TELLING = ['amount'];
export const tidyHour = (typed: Typed): Typed => closedUp(typed, 'overhead', TELLING).typed;

/** The working hour out of the second page's answers. @throws Invalid */
export const readHour = (typed: Typed, studio: Studio): { workings: RateWorkings; overruns: Overruns } => {
  const kit = typedKit(studio.identity);
  const { rest, rows } = closedUp(typed, 'overhead', TELLING);
  const { once: _once, version: _version, ...bare } = rest;
  const said = parse(HourQuestions(kit), { ...bare, overhead: rows });
  const person = personOf({ ...said, name: studio.identity.maker, year: yearOf(said) });
  return {
    overruns: said.overruns,
    workings: { currency: kit.currency, people: [person], overhead: said.overhead },
  };
};
