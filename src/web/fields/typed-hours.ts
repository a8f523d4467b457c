import { type Decimal, readDecimal } from '../../domain/kernel/decimal.js';
import { hoursOf } from '../../domain/kernel/minutes.js';
import { foldTyped } from '../../domain/measuring/typed-text.js';
import { readDuration } from '../words/durations.js';
import { mapReading, type Reading, refused, understood } from '../words/reading.js';

/**
 * Reads hours where a bare number is hours: `52.5`, `52 1/2`, `52:30`, `52h30`. A plain decimal stays exact.
 *
 * @param most hours, at most 10,000
 */
export const readHours = (typed: string, most: number, aboveNought: string): Reading<Decimal> => {
  const plain = readDecimal(foldTyped(typed).replace(',', '.'));
  const reading = plain?.isPositive()
    ? understood(plain)
    : mapReading(readDuration(typed, { bare: 'hours', askAbove: most * 60 }), hoursOf);
  if (reading.kind !== 'ok') return reading;
  if (reading.value.lte(0)) return refused(aboveNought);
  return reading.value.gt(most) ? refused(`At most ${most.toLocaleString('en')} hours.`) : reading;
};
