import {
  compare,
  exactText,
  type Fraction,
  fraction,
  minus,
  over,
  readExact,
  roundedText,
  size,
} from './fraction.js';
import { type LengthUnit, MILLIMETRES } from './length-unit.js';

const TAPE_DENOMINATORS = new Set([2n, 3n, 4n, 8n, 16n, 32n]);

/** A whole number and a fraction as a tape reads: `38 1/2`, `1/4`, `12`. */
const asOnATape = (value: Fraction): string => {
  const whole = value.n / value.d;
  const rest = value.n % value.d;
  if (rest === 0n) return `${whole}`;
  return whole === 0n ? `${rest}/${value.d}` : `${whole} ${rest}/${value.d}`;
};

/**
 * An exact length in one unit, in words for a person: inches, feet and yards as a tape reads where it can (`38 1/2 in`),
 * everything else as a decimal of at most four places, half away from zero (`97.8 cm`).
 *
 * @param mm exact millimetres, as `exactText` writes them
 * @param unit the unit to show it in: the unit typed
 * @param options `signed` puts a sign before it, for a difference or a correction
 * @see test/domain/measuring/length-entry.test.ts
 */
export const showLength = (mm: string, unit: LengthUnit, options: { signed?: boolean } = {}): string => {
  const value = over(readExact(mm), MILLIMETRES[unit]);
  const bare = size(value);
  const imperial = unit === 'in' || unit === 'ft' || unit === 'yd';
  const numeral =
    imperial && (bare.d === 1n || TAPE_DENOMINATORS.has(bare.d)) ? asOnATape(bare) : roundedText(bare, 4);
  const sign = compare(value, fraction(0n)) < 0 ? '−' : options.signed && value.n !== 0n ? '+' : '';
  return `${sign}${numeral} ${unit}`;
};

/**
 * now − before, exact, in millimetres.
 *
 * @param nowMm exact millimetres
 * @param beforeMm exact millimetres
 * @returns exact millimetres with a minus sign where it became less
 */
export const exactDifference = (nowMm: string, beforeMm: string): string =>
  exactText(minus(readExact(nowMm), readExact(beforeMm)));
