import type { CurrencyCode } from '../../kernel/currency.js';
import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';

export type DecimalSign = '.' | ',';

/** A figure as banks write it, taken apart: its sign and its digits with points, commas, blanks and apostrophes. */
const taken = (text: string): { readonly negative: boolean; readonly figures: string } | undefined => {
  const plain = text
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\u00a0\u202f\u2009]/g, ' ')
    .replace(/^'(?=[-+=\d])/, '')
    .trim();
  const found =
    /^(?<open>\()?(?<sign>[+-])?\s*(?:[A-Z]{3}|[€$£])?\s*(?<sign2>[+-])?\s*(?<figures>\d[\d.,' ]*)\s*(?:[A-Z]{3}|[€$£])?\s*(?<after>[+-])?(?<close>\))?$/.exec(
      plain,
    )?.groups;
  if (!found || Boolean(found.open) !== Boolean(found.close)) return undefined;
  const signs = [found.sign, found.sign2, found.after].filter(Boolean);
  if (signs.length > 1 || (found.open && signs.length > 0)) return undefined;
  return { negative: Boolean(found.open) || signs[0] === '-', figures: (found.figures ?? '').trim() };
};

/**
 * Which sign stands before the decimals in a column of figures, by what the figures themselves show.
 *
 * @returns undefined when every figure could be read either way, as `1.234` could, so that a person is asked
 * @see test/domain/papers/bank/bank.test.ts
 */
export const decimalSignIn = (column: readonly string[]): DecimalSign | undefined => {
  let unsure = false;
  for (const text of column) {
    const figures = taken(text)?.figures ?? '';
    const point = figures.lastIndexOf('.');
    const comma = figures.lastIndexOf(',');
    if (point >= 0 && comma >= 0) return point > comma ? '.' : ',';
    const sign = point >= 0 ? '.' : ',';
    const places = figures.split(sign);
    if (places.length === 1) continue;
    // Twice or more of one sign are marks of thousands; one with other than three digits behind it is a decimal sign.
    if (places.length > 2) return sign === '.' ? ',' : '.';
    if (places[1]?.length !== 3 || (places[0]?.length ?? 0) > 3 || places[0] === '0') return sign;
    unsure = true;
  }
  return unsure ? undefined : '.';
};

/**
 * Reads one figure: `1,234.50`, `1.234,50-`, `(12.00)`, `+ 1 234,50 EUR`, `1'234.50`.
 *
 * @param sign what stands before the decimals
 * @returns signed, exact; undefined when it is no such figure or has more decimals than the currency
 */
export const readBankAmount = (
  text: string,
  sign: DecimalSign,
  currency: CurrencyCode,
): Money | undefined => {
  const parts = taken(text);
  if (!parts) return undefined;
  const [whole = '', places, ...more] = parts.figures.split(sign);
  if (more.length > 0 || (places !== undefined && !/^\d{0,6}$/.test(places))) return undefined;
  // Thousands in threes; lakhs in twos before the last three are read too.
  if (!/^(\d+|\d{1,3}([.,' ]\d{2,3})*[.,' ]\d{3})$/.test(whole)) return undefined;
  const digits = whole.replace(/[.,' ]/g, '');
  if (digits.length > 12) return undefined;
  const value = new Decimal(`${digits}.${places || '0'}`);
  const money = Money.rounded(value, currency);
  if (!money.toDecimal().equals(value)) return undefined;
  return parts.negative ? money.negated() : money;
};
