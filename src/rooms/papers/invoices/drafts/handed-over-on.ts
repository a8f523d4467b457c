import { standingMarks } from '../../../../domain/commissions/garment-mark.js';
import type { CalendarDate } from '../../../../domain/kernel/calendar-date.js';
import { garmentMarkBook } from '../../../../storage/books/bench/garment-mark-book.js';
import type { Reading } from '../../../../storage/session.js';

/** The day of delivery of some garments: the last of them was handed over on it. None while one of them is still here. */
export const handedOverOn = async (
  reading: Reading,
  garmentIds: readonly string[],
): Promise<CalendarDate | undefined> => {
  const marks = await garmentMarkBook.ofGarments(reading, garmentIds);
  const days = [...marks.values()].map(
    (own) => standingMarks(own).findLast(({ kind }) => kind === 'delivered')?.on,
  );
  return days.includes(undefined) ? undefined : days.sort().at(-1);
};
