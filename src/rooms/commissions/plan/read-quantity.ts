import { type Decimal, readDecimal } from '../../../domain/kernel/decimal.js';
import { foldTyped } from '../../../domain/measuring/typed-text.js';
import { readFractionText } from '../../../web/words/numeral.js';
import { nothingTyped, type Reading, refused, understood } from '../../../web/words/reading.js';

const MOST = 1_000_000;

/** Reads how many of what an operation goes by: `11`, `2,5`, `2 1/2`. */
export const readQuantity = (typed: string): Reading<Decimal> => {
  const text = foldTyped(typed);
  if (text === '') return nothingTyped;
  const value = readDecimal(text.replace(',', '.')) ?? readFractionText(text);
  return value && !value.isNegative() && value.lte(MOST)
    ? understood(value)
    : refused('Write a number from 0 to 1,000,000 here, such as 2 or 2.5.');
};
