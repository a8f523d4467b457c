import { productiveShare } from '../../domain/bench/productive-share.js';
import { addDays, type CalendarDate } from '../../domain/kernel/calendar-date.js';
import type { Share } from '../../domain/kernel/share.js';
import { sittingBook } from '../../storage/books/bench/sitting-book.js';
import type { Reading } from '../../storage/session.js';
import { countInWords } from '../../web/words/counts.js';
import { minutesInWords } from '../../web/words/durations.js';
import { decimalSignOf } from '../../web/words/numeral.js';
import { shareInWords } from '../../web/words/shares.js';

/** A year back, the day itself among it. */
const A_YEAR = 364;

/**
 * What share of the time of the last year went into garments, in words; empty while nothing was written down.
 *
 * @param reckoned the share the rates go by, where they go by one
 */
export const shareWorked = async (
  reading: Reading,
  today: CalendarDate,
  locale: string,
  reckoned: Share | undefined,
): Promise<string> => {
  const found = productiveShare(await sittingBook.days(reading, addDays(today, -A_YEAR), today));
  if (!found) return '';
  const inWords = (share: Share): string => shareInWords(share, 0, decimalSignOf(locale));
  const of = `${minutesInWords(found.inGarments)} of ${minutesInWords(found.inAll)}`;
  const against = reckoned ? ` The hour is reckoned with ${inWords(reckoned)}.` : '';
  return `As the bench has it, ${inWords(found.share)} of the time went into garments: ${of}. It rests on ${countInWords(found.weeks, 'week')}.${against}`;
};
