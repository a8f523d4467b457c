import { compare, exactText, type Fraction, fraction, over, readExact, times } from './fraction.js';
import type { LengthEntry } from './length-entry.js';
import { type LengthUnit, MILLIMETRES } from './length-unit.js';
import type { Choice } from './reading.js';
import { showLength } from './shown-length.js';

const OTHER_UNITS: readonly LengthUnit[] = ['in', 'cm', 'mm'];
const MOST_GUESSES = 2;

const withoutADoubledDigit = (numeral: string): readonly string[] =>
  [...numeral].flatMap((digit, index) =>
    digit === numeral[index + 1] ? [numeral.slice(0, index) + numeral.slice(index + 1)] : [],
  );

/**
 * What a surprising value may have been meant to be: the same figures in another unit, a doubled digit, a decimal point
 * one place off. Only what is likely is offered, at most two.
 *
 * @param entry the value typed
 * @param isLikely would this many exact millimetres be expected here?
 * @returns choices that can be typed instead
 */
export const likelySlips = (entry: LengthEntry, isLikely: (mm: Fraction) => boolean): readonly Choice[] => {
  const mm = readExact(entry.mm);
  const figures = over(mm, MILLIMETRES[entry.unit]);
  const inUnit = (value: Fraction, unit: LengthUnit) => ({ mm: times(value, MILLIMETRES[unit]), unit });
  const plain = exactText(figures);
  const doubled = plain.includes('/') ? [] : withoutADoubledDigit(plain).map(readExact);
  const meant = [
    ...OTHER_UNITS.filter((unit) => unit !== entry.unit).map((unit) => inUnit(figures, unit)),
    ...doubled.map((value) => inUnit(value, entry.unit)),
    inUnit(over(figures, fraction(10n)), entry.unit),
    inUnit(times(figures, fraction(10n)), entry.unit),
  ];
  const texts = meant
    .filter((one) => compare(one.mm, mm) !== 0 && isLikely(one.mm))
    .map((one) => showLength(exactText(one.mm), one.unit));
  return [...new Set(texts)].slice(0, MOST_GUESSES).map((text) => ({ words: text, typed: text }));
};
