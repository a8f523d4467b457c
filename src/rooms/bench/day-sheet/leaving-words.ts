import { READINESS_WORDS } from '../../../domain/commissions/landing/leaving.js';
import { type CalendarDate, daysBetween } from '../../../domain/kernel/calendar-date.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import type { LeavingLine } from './leaving.js';

/** Days to go, in words: `in 12 days`, `today`, `3 days ago`. */
export const daysInWords = (days: number): string => {
  if (days === 0) return 'today';
  return days > 0 ? `in ${countInWords(days, 'day')}` : `${countInWords(-days, 'day')} ago`;
};

/** Minutes as hours to plan by: `under an hour`, `9 h`. */
const hours = (minutes: number): string =>
  minutes < 60 ? 'under an hour' : `${Math.floor((minutes + 30) / 60)} h`;

/** Why it is comfortable, tight or late: one sentence with the hours. */
export const whyInWords = ({ readiness, left, needed, there, isOffered }: LeavingLine): string => {
  if (isOffered) return 'the quote waits for an answer';
  if (left.even === 0) return left.worked > 0 ? 'all is worked' : 'no time is planned';
  if (readiness === 'no-day') return `${hours(left.fourInFive)} to come at 4 in 5`;
  if (readiness === 'no-hours')
    return `${hours(left.fourInFive)} to come; say in Rates how many hours a week you work`;
  const own = `${hours(left.fourInFive)} to come at 4 in 5`;
  const before = needed - left.fourInFive >= 30 ? `, ${hours(needed)} with what leaves before it` : '';
  return readiness === 'late' && there === 0
    ? `${own}${before}`
    : `${own}${before}, ${hours(there)} there until then`;
};

/**
 * What leaves next, with the day, and whether it will be ready.
 *
 * @param may whether whoever looks may open an address: those who see no job sheet go to the garment at the bench
 */
export const leavingTable = (
  lines: readonly LeavingLine[],
  today: CalendarDate,
  may: (url: string) => boolean,
): object => ({
  caption: 'What leaves next',
  columns: [
    { text: 'Garment' },
    { text: 'For' },
    { text: 'Should leave', short: true },
    { text: 'Will it be ready' },
  ],
  rows: lines.map((line) => {
    const { garment, dueOn, readiness, isOffered } = line;
    const sheet = `/commissions/${garment.commissionId}/garments/${garment.id}`;
    return {
      cells: [
        {
          text: garment.name,
          href: may(sheet) ? sheet : `/bench/garments/${garment.id}`,
          note: `${garment.commissionNumber}, no. ${garment.place}`,
        },
        { text: garment.wearerName },
        dueOn
          ? { text: dateInWords(dueOn), note: daysInWords(daysBetween(today, dueOn)) }
          : { text: 'no day named' },
        {
          text: isOffered ? 'Not ordered yet' : capitalised(READINESS_WORDS[readiness]),
          note: whyInWords(line),
        },
      ],
    };
  }),
});
