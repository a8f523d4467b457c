import { Decimal, readDecimal } from '../../domain/kernel/decimal.js';
import { percentOfShare, type Share } from '../../domain/kernel/share.js';
import { foldTyped, quoted } from '../../domain/measuring/typed-text.js';
import { type DecimalSign, numeralText } from './numeral.js';
import { nothingTyped, type Reading, refused, understood } from './reading.js';

/** The bounds of a percentage field, in percent; 0 to 100 when left out. */
export type PercentField = { readonly least?: number; readonly most?: number; readonly below?: number };

/**
 * Reads a percentage: `15`, `15 %`, `62,5`, `62.5 per cent`. Either sign may stand before decimals; nothing is grouped.
 *
 * @param field bounds in percent, inclusive; `below` is a bound that must not be reached (a margin of 100 % has no price)
 * @returns the share: 15 % is 0.15, exact
 * @see test/web/words/shares.test.ts
 */
export const readPercent = (typed: string, field: PercentField = {}): Reading<Share> => {
  const text = foldTyped(typed);
  if (text === '') return nothingTyped;
  const { least = 0, most = 100, below } = field;
  const figures = text.replace(/ ?(%|per ?cent|pct)$/, '').replace(',', '.');
  const percent = readDecimal(figures);
  if (!percent) return refused(`${quoted(typed)} is not a percentage. Write it like 15 or 62.5.`);
  if (below !== undefined && percent.gte(below)) return refused(`This must stay below ${below} %.`);
  if (percent.lt(least) || percent.gt(most)) return refused(`Write a percentage from ${least} to ${most}.`);
  return understood(percent.isZero() ? new Decimal(0) : percent.div(100));
};

/**
 * A share in words: `62 %`.
 *
 * @param places decimals of the percentage, rounded half away from zero; trailing noughts go
 */
export const shareInWords = (share: Share, places = 0, sign: DecimalSign = '.'): string => {
  const percent = share.times(100).toDecimalPlaces(places);
  return `${numeralText(percent.isZero() ? new Decimal(0) : percent, sign).replace('-', '−')} %`;
};

/** A share as a field takes it back: `62.5`. */
export const shareForField = (share: Share): string => percentOfShare(share);
