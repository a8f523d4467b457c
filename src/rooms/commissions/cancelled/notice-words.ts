import type { Commission } from '../../../domain/commissions/commission.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import { addDays, type CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { dateInWords } from '../../../web/words/dates.js';

/** How long a notice leaves by itself; the maker changes it in the words. */
const DAYS_TO_COLLECT = 30;

/**
 * A notice that a garment waits to be collected, as a draft to be looked over: no threat, no fee, nothing about what happens
 * afterwards, since that differs by country.
 */
export const draftNotice = (
  garment: Pick<Garment, 'name' | 'place'>,
  commission: Pick<Commission, 'number'>,
  said: {
    readonly clientName: string;
    readonly maker: string;
    readonly readySince: CalendarDate | undefined;
    readonly today: CalendarDate;
    /** What is still to pay; '' where nothing is. */
    readonly owed: string;
  },
): string =>
  [
    `Dear ${said.clientName},`,
    '',
    `Your ${garment.name} (${commission.number}/${garment.place}) ${said.readySince ? `has been ready since ${dateInWords(said.readySince)}` : 'is ready'} and is kept safely here for you.`,
    `Please collect it by ${dateInWords(addDays(said.today, DAYS_TO_COLLECT))}, or tell us when you would like to come. We can also send it at your cost.`,
    ...(said.owed ? [`Still to pay: ${said.owed}.`] : []),
    'If anything stands in the way, write or call; we shall find a way.',
    '',
    'With kind regards,',
    said.maker,
  ].join('\n');
