import { Invalid } from './errors.js';

/**
 * Decimal places of each currency's minor unit.
 *
 * @see ISO 4217 list one (SIX), as published in datasets/currency-codes, 1 Feb 2026
 */
const MINOR_UNITS: Readonly<Record<number, string>> = {
  0: 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF',
  2:
    'AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CNY COP ' +
    'CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR ' +
    'JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN ' +
    'NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP ' +
    'SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD UYU UZS VED VES WST XCD YER ZAR ZMW',
  3: 'BHD IQD JOD KWD LYD OMR TND',
  4: 'CLF UYW',
};

const EXPONENTS = new Map<string, number>(
  Object.entries(MINOR_UNITS).flatMap(([exponent, codes]) =>
    codes.split(' ').map((code): [string, number] => [code, Number(exponent)]),
  ),
);

/** An ISO 4217 alphabetic code. */
export type CurrencyCode = string;

/** Every code the house knows, in alphabetical order. */
export const currencyCodes = (): readonly CurrencyCode[] => [...EXPONENTS.keys()].sort();

/** Is this a currency with a minor unit the house knows? */
export const isCurrency = (code: string): boolean => EXPONENTS.has(code);

/**
 * How many decimals the currency's minor unit has.
 *
 * @returns 0 (JPY), 2 (EUR), 3 (KWD) or 4 (CLF)
 * @throws Invalid when the code is not on the list
 */
export const exponentOf = (code: CurrencyCode): number => {
  const exponent = EXPONENTS.get(code);
  if (exponent === undefined) {
    throw Invalid.field(
      'currency',
      `“${code}” is not a currency code. Use a three-letter code such as EUR or GBP.`,
    );
  }
  return exponent;
};
