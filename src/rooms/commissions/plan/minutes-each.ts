import { Decimal } from '../../../domain/kernel/decimal.js';
import type { Operation } from '../../../domain/making/operation.js';
import { foldTyped } from '../../../domain/measuring/typed-text.js';
import { readDuration } from '../../../web/words/durations.js';
import { mapReading, nothingTyped, type Reading, refused, understood } from '../../../web/words/reading.js';

const PLAIN = /^(\d{1,6}(?:[.,]\d{1,4})?) ?(?:m|min|mins|minutes?)?\.?$/;

/** The longest one operation may take for one of what it goes by: 600,000 minutes. */
const MOST = 600_000;

/**
 * Reads the minutes of an operation, where the column says minutes: `25`, `0.75` and `90m` are minutes, `1h30`, `1:30` and
 * `2 h` hours. Unlike time worked, minutes for a centimetre of seam may have decimals.
 */
export const readMinutesEach = (typed: string): Reading<Decimal> => {
  const text = foldTyped(typed);
  if (text === '') return nothingTyped;
  const [, figures] = PLAIN.exec(text) ?? [];
  if (figures !== undefined) {
    const minutes = new Decimal(figures.replace(',', '.'));
    return minutes.lte(MOST) ? understood(minutes) : refused('This is longer than a garment takes.');
  }
  return mapReading(
    readDuration(typed, { bare: 'minutes', askAbove: MOST }),
    (minutes) => new Decimal(minutes),
  );
};

/** Minutes as the column takes them back: `25`, `0.75`, `1h30`. */
export const minutesEachForField = (minutes: Decimal): string => {
  if (!minutes.isInteger() || minutes.lt(60)) return minutes.toDecimalPlaces(4).toFixed();
  const rest = minutes.mod(60);
  return `${minutes.div(60).truncated().toFixed()}h${rest.isZero() ? '' : rest.toFixed().padStart(2, '0')}`;
};

/** The minutes an operation takes for one of what it goes by, or in all where it is done once; none while unknown. */
export const minutesEach = (operation: Operation): Decimal | undefined => {
  if (operation.needsMinutes) return undefined;
  return operation.driver === 'once'
    ? operation.fixedMinutes.plus(operation.minutesPerUnit.times(operation.quantity))
    : operation.minutesPerUnit;
};
