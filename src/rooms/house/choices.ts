import type { Overruns, TaxCategory } from '../../domain/house/studio.js';
import { currencyCodes } from '../../domain/kernel/currency.js';
import { Money } from '../../domain/kernel/money.js';
import { moneyInWords } from '../../web/words/amounts.js';

export type Choice = { readonly value: string; readonly text: string };

const NAMES = new Intl.DisplayNames('en', { type: 'currency' });

export const currencyChoices = (): Choice[] =>
  currencyCodes().map((code) => ({ value: code, text: `${code}, ${NAMES.of(code) ?? code}` }));

const LOCALES = [
  'en-GB',
  'en-IE',
  'en-US',
  'en-CA',
  'en-AU',
  'en-IN',
  'cs-CZ',
  'da-DK',
  'de-AT',
  'de-CH',
  'de-DE',
  'es-ES',
  'fi-FI',
  'fr-CH',
  'fr-FR',
  'it-IT',
  'ja-JP',
  'nl-BE',
  'nl-NL',
  'nb-NO',
  'pl-PL',
  'pt-PT',
  'sv-SE',
];
const PLACES = new Intl.DisplayNames('en', { type: 'language', languageDisplay: 'standard' });

export const isLocale = (text: string): boolean => {
  try {
    return Intl.NumberFormat.supportedLocalesOf(text).length > 0;
  } catch {
    return false;
  }
};

/** How numbers are written, each shown by an example. */
export const localeChoices = (present: string, currency = 'EUR'): Choice[] =>
  [...new Set([present, ...LOCALES])].filter(isLocale).map((locale) => ({
    value: locale,
    text: `${moneyInWords(Money.ofMinor(123456, currency), locale)}, ${PLACES.of(locale) ?? locale}`,
  }));

export const isZone = (text: string): boolean => {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: text }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
};

export const zoneChoices = (present: string): Choice[] =>
  [...new Set([present, ...Intl.supportedValuesOf('timeZone')])].map((zone) => ({
    value: zone,
    text: zone.replaceAll('_', ' '),
  }));

/** EN 16931 category codes in words. */
const TAX_WORDS: Readonly<Record<TaxCategory, string>> = {
  S: 'S: standard or reduced rate',
  Z: 'Z: zero rated',
  E: 'E: exempt from tax',
  AE: 'AE: reverse charge, the client accounts for it',
  O: 'O: outside the scope of tax',
  G: 'G: export outside the tax area',
  K: 'K: supply to another member state',
};
export const taxChoices = (): Choice[] => Object.entries(TAX_WORDS).map(([value, text]) => ({ value, text }));

const OVERRUN_WORDS: Readonly<Record<Overruns, string>> = {
  no: 'No, I keep to my plans',
  'a-little': 'A little',
  'a-lot': 'A lot',
  unknown: 'I do not know',
};
export const overrunChoices = (): Choice[] =>
  Object.entries(OVERRUN_WORDS).map(([value, text]) => ({ value, text }));

export const LENGTH_UNITS: Choice[] = [
  { value: 'cm', text: 'centimetres' },
  { value: 'in', text: 'inches' },
];
export const CLOTH_UNITS: Choice[] = [
  { value: 'm', text: 'metres' },
  { value: 'yd', text: 'yards' },
];

export const TAX_CAUTION =
  'This adds up what you entered. Rules differ by country; check yours or ask a licensed adviser.';
