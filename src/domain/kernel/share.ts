import { Decimal, readDecimal } from './decimal.js';
import { Invalid } from './errors.js';

/** A share of one: 0.15 is 15 %. Kept as a decimal, never a binary float. */
export type Share = Decimal;

/**
 * Reads a percentage as people write it (`15`, `15 %`, `62.5%`) into a share.
 *
 * @returns the share, e.g. 0.15
 * @throws Invalid when it is not a plain percentage
 */
export const shareOfPercent = (text: string): Share => {
  const value = readDecimal(text.trim().replace(/\s*%$/, '').replace(',', '.'));
  if (!value) throw new Invalid(`“${text.slice(0, 40)}” is not a percentage. Write it like 15 or 62.5.`);
  return value.div(100);
};

/** The share as a plain percentage numeral without trailing noughts: 0.15 gives `15`. */
export const percentOfShare = (share: Share): string => share.times(100).toFixed();
