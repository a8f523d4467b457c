import { type CalendarDate, daysBetween } from '../../../domain/kernel/calendar-date.js';
import { countInWords } from '../../../web/words/counts.js';

/** A chance as people say it: `about 7 in 10`, `as good as certain`. */
export const chanceInWords = (chance: number): string => {
  if (chance >= 0.975) return 'as good as certain';
  if (chance <= 0.025) return 'hardly any chance';
  const tenths = Math.min(9, Math.floor(chance * 10 + 0.5));
  return tenths === 0 ? 'less than 1 in 10' : `about ${tenths} in 10`;
};

/** How far a date moves: `6 days later`, `one day earlier`. */
export const moveInWords = (before: CalendarDate, after: CalendarDate): string => {
  const days = daysBetween(before, after);
  if (days === 0) return 'the same day';
  return `${countInWords(Math.abs(days), 'day')} ${days > 0 ? 'later' : 'earlier'}`;
};

/** Minutes as hours to plan by: `9 h`, `under an hour`, `none`. */
export const hoursToPlanBy = (minutes: number): string => {
  const size = Math.abs(minutes);
  if (size < 1) return 'none';
  const hours = Math.floor((size + 30) / 60);
  return `${minutes < 0 ? '−' : ''}${hours === 0 ? 'under an hour' : `${hours} h`}`;
};
