import { Decimal } from '../../domain/kernel/decimal.js';

/** The sign before the decimals. */
export type DecimalSign = '.' | ',';

/** A numeral understood, or one that means a number only if its signs are read the other way. */
export type Numeral = { readonly value: Decimal; readonly isSure: boolean };

const SIGNS = new Map<string, DecimalSign>();

/**
 * The sign a locale writes before decimals.
 *
 * @param locale a BCP 47 tag such as `en-GB`; an unknown one counts as English
 */
export const decimalSignOf = (locale: string): DecimalSign => {
  const known = SIGNS.get(locale);
  if (known) return known;
  let sign: DecimalSign = '.';
  try {
    const parts = new Intl.NumberFormat(locale, { numberingSystem: 'latn' }).formatToParts(1.5);
    sign = parts.find(({ type }) => type === 'decimal')?.value === ',' ? ',' : '.';
  } catch {
    sign = '.';
  }
  SIGNS.set(locale, sign);
  return sign;
};

const plain = (whole: string, places = ''): Decimal =>
  new Decimal(`${whole || '0'}${places && `.${places}`}`);

const withBoth = (text: string, decimal: DecimalSign): Numeral | undefined => {
  const last: DecimalSign = text.lastIndexOf('.') > text.lastIndexOf(',') ? '.' : ',';
  const group = last === '.' ? ',' : '.';
  const [whole = '', places = '', ...more] = text.split(last);
  if (more.length > 0 || !/^\d{1,3}(?:[.,]\d{3})+$/.test(whole) || !/^\d+$/.test(places)) return undefined;
  return { value: plain(whole.replaceAll(group, ''), places), isSure: last === decimal };
};

const withOne = (text: string, sign: DecimalSign, decimal: DecimalSign): Numeral | undefined => {
  const [whole = '', ...runs] = text.split(sign);
  const isGrouped = /^[1-9]\d{0,2}$/.test(whole) && runs.every((run) => /^\d{3}$/.test(run));
  if (runs.length > 1)
    return isGrouped ? { value: plain(whole + runs.join('')), isSure: sign !== decimal } : undefined;
  if (sign !== decimal && isGrouped) return { value: plain(whole + runs.join('')), isSure: true };
  const places = runs[0] ?? '';
  return /^\d+$/.test(places) ? { value: plain(whole, places), isSure: sign === decimal } : undefined;
};

/**
 * Reads a numeral with either sign for decimals and groups of three: `1,234.50`, `1.234,50`, `1 234,50`, `1'234.5`.
 *
 * @param text folded text: digits, points, commas, apostrophes and single spaces
 * @param decimal the sign the studio writes before decimals
 * @returns `isSure` false where the signs are read against the studio's manner; undefined when it is no numeral
 */
export const readNumeral = (text: string, decimal: DecimalSign): Numeral | undefined => {
  const joined = /^\d{1,3}(?:[ ']\d{3})+(?:[.,]\d+)?$/.test(text) ? text.replace(/[ ']/g, '') : text;
  if (!/^[\d.,]*\d$/.test(joined)) return undefined;
  const [hasPoint, hasComma] = [joined.includes('.'), joined.includes(',')];
  if (hasPoint && hasComma) return withBoth(joined, decimal);
  if (hasPoint || hasComma) return withOne(joined, hasPoint ? '.' : ',', decimal);
  return { value: plain(joined), isSure: true };
};

/** A plain numeral in the studio's manner, without groups: `1234,50`. */
export const numeralText = (value: Decimal, decimal: DecimalSign, places?: number): string =>
  (places === undefined ? value.toFixed() : value.toFixed(places)).replace('.', decimal);

const FRACTION = /^(?:(\d{1,6})(?: ?- ?| ))?(\d{1,6}) ?\/ ?(\d{1,6})$/;

/**
 * Reads a whole number and a fraction below one: `2 3/4`, `1/2`.
 *
 * @returns the value to 40 digits, or undefined when it is no such fraction
 */
export const readFractionText = (text: string): Decimal | undefined => {
  const [, whole = '0', above = '', below = ''] = FRACTION.exec(text) ?? [];
  if (below === '' || Number(below) === 0 || Number(above) >= Number(below)) return undefined;
  return new Decimal(whole).plus(new Decimal(above).div(below));
};
