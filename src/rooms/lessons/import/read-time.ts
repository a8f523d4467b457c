import { Decimal, readDecimal } from '../../../domain/kernel/decimal.js';
import { hoursOf } from '../../../domain/kernel/minutes.js';
import { MOST_HOURS } from '../../../domain/lessons/past-garment.js';
import { foldTyped } from '../../../domain/measuring/typed-text.js';
import { readDuration } from '../../../web/words/durations.js';
import type { TimeUnit } from './columns.js';

/** A time out of a list: hours, a sentence about what is wrong, or a bare number nobody gave a unit. */
export type TimeRead = { readonly hours: Decimal } | { readonly trouble: string } | { readonly isBare: true };

/** `3.120` is three and a bit here, and three thousand there. */
const EITHER_WAY = /^\d{1,3}[.,]\d{3}$/;

/**
 * Reads a time of a list. What brings its own unit (`52h30`, `52:30`, `90 min`) is read as it stands; a bare number goes by the column's
 * unit, with a decimal point or a decimal comma.
 *
 * @param mayBeNought an operation may have been left out, or been in no plan; a garment takes more than nothing
 */
export const readListedTime = (typed: string, unit: TimeUnit, mayBeNought = false): TimeRead => {
  const text = foldTyped(typed);
  if (EITHER_WAY.test(text))
    return { trouble: `“${text}” can be read in two ways. Write it without a mark for thousands.` };
  const plain = readDecimal(text.replace(',', '.'));
  if (plain?.isZero() && mayBeNought) return { hours: plain };
  if (plain) {
    if (unit === '') return { isBare: true };
    return within(unit === 'hours' ? plain : hoursOf(plain));
  }
  const read = readDuration(typed, { askAbove: MOST_HOURS * 60, ...(unit === '' ? {} : { bare: unit }) });
  if (read.kind === 'ok') return within(hoursOf(read.value));
  if (read.kind === 'empty') return { trouble: 'No time is given.' };
  return { trouble: read.sentence };
};

const within = (hours: Decimal): TimeRead => {
  if (hours.lte(0)) return { trouble: 'A garment takes more than 0 hours.' };
  if (hours.gt(MOST_HOURS)) return { trouble: `At most ${MOST_HOURS.toLocaleString('en')} hours.` };
  return { hours: new Decimal(hours.toDecimalPlaces(6)) };
};
