import { foldTyped, quoted } from '../../domain/measuring/typed-text.js';
import { nothingTyped, type Reading, refused, understood } from './reading.js';

const HELP = 'Write it like 14:30 or 2.30 pm.';

/**
 * Reads a time on the clock: `14:30`, `9.05`, `9h`, `2.30 pm`, `noon`.
 *
 * @returns `HH:MM`
 * @see test/web/words/times.test.ts
 */
export const readTimeOfDay = (typed: string): Reading<string> => {
  const text = foldTyped(typed).replace(/\s+/g, ' ').trim();
  if (text === '') return nothingTyped;
  if (text === 'noon') return understood('12:00');
  const [, hour = '', minute = '0', half = ''] =
    /^(\d{1,2})(?: ?[:.h] ?(\d{2})?)? ?(am|pm|a\.m\.|p\.m\.)?$/.exec(text) ?? [];
  const figures = Number(hour);
  const isHalf = half !== '';
  if (hour === '' || Number(minute) > 59 || figures > 23 || (isHalf && (figures < 1 || figures > 12)))
    return refused(`${quoted(typed)} is not a time on the clock. ${HELP}`);
  const hours = isHalf ? (figures % 12) + (half.startsWith('p') ? 12 : 0) : figures;
  return understood(`${String(hours).padStart(2, '0')}:${minute.padStart(2, '0')}`);
};
