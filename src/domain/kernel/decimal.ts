import { Decimal as BaseDecimal } from 'decimal.js';

/**
 * The one decimal arithmetic of the house: 40 significant digits, half away from zero, never written with an exponent.
 *
 * Rates, quantities and shares are `Decimal`; binary floats live only in `domain/estimating`.
 */
export const Decimal = BaseDecimal.clone({
  precision: 40,
  rounding: BaseDecimal.ROUND_HALF_UP,
  toExpNeg: -9e15,
  toExpPos: 9e15,
});
export type Decimal = BaseDecimal;
export type Rounding = BaseDecimal.Rounding;

const PLAIN_NUMBER = /^[+-]?(\d+(\.\d+)?|\.\d+)$/;

/**
 * Reads a plain decimal numeral such as `5.20` or `-0.15`; no exponent, no grouping, at most 40 characters.
 *
 * @returns the exact value, or `undefined` when the text is not a plain decimal numeral
 */
export const readDecimal = (text: string): Decimal | undefined =>
  text.length <= 40 && PLAIN_NUMBER.test(text) ? new Decimal(text) : undefined;
