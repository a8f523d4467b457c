import { z } from 'zod';
import { currency, oneOf } from '../../../web/fields/fields.js';
import {
  CLOTH_UNITS,
  currencyChoices,
  isLocale,
  isZone,
  LENGTH_UNITS,
  localeChoices,
  zoneChoices,
} from '../choices.js';
import type { Section } from './section.js';

/** Currency, numbers, time zone and units. The currency itself is changed by the use case, which looks at what is priced. */
export const units: Section = {
  path: 'units',
  title: 'Currency, numbers and units',
  summary: ({ identity }) =>
    `${identity.currency}; ${identity.lengthUnit} and ${identity.clothUnit}; ${identity.zone.replaceAll('_', ' ')}`,
  values: ({ identity: { currency: code, locale, zone, lengthUnit, clothUnit } }) => ({
    currency: code,
    locale,
    zone,
    lengthUnit,
    clothUnit,
  }),
  schema: (_, studio) =>
    z
      .strictObject({
        currency: currency(),
        locale: z.string().refine(isLocale, 'Choose one of the ways offered.'),
        zone: z.string().refine(isZone, 'Choose one of the time zones offered.'),
        lengthUnit: oneOf(['cm', 'in']),
        clothUnit: oneOf(['m', 'yd']),
      })
      .transform((said) => ({ ...studio, identity: { ...studio.identity, ...said } })),
  words: ({ identity }) => ({
    currencies: currencyChoices(),
    locales: localeChoices(identity.locale, identity.currency),
    zones: zoneChoices(identity.zone),
    lengths: LENGTH_UNITS,
    cloths: CLOTH_UNITS,
  }),
};
