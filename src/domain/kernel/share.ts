import type { Decimal } from './decimal.js';

/** A share of one: 0.15 is 15 %. Kept as a decimal, never a binary float. */
export type Share = Decimal;

/** The share as a plain percentage numeral without trailing noughts: 0.15 gives `15`. */
export const percentOfShare = (share: Share): string => share.times(100).toFixed();
