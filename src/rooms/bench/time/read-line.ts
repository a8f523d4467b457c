import type { PlaceToWork } from '../../../domain/bench/line/place-to-work.js';
import { type LineWork, readWork } from '../../../domain/bench/line/read-work.js';
import { readTimeLine, type TimeLine } from '../../../domain/bench/line/time-line.js';
import type { Studio } from '../../../domain/house/studio.js';
import { foldTyped } from '../../../domain/measuring/typed-text.js';
import { placesToWork } from '../../../storage/books/bench/open-garments.js';
import { sittingBook } from '../../../storage/books/bench/sitting-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading as Kept } from '../../../storage/session.js';
import { readDate } from '../../../web/words/dates.js';
import { type DurationField, readDuration } from '../../../web/words/durations.js';
import type { Reading } from '../../../web/words/reading.js';

/** How this studio types a time: what a bare number means. */
export const durationField = ({ bareTime }: Studio): DurationField =>
  bareTime === 'ask' ? {} : { bare: bareTime };

const placesFor = async (reading: Kept, text: string, garmentId?: string): Promise<PlaceToWork[]> => {
  const last = await sittingBook.lastGarments(reading);
  return placesToWork(reading, text, garmentId ? [garmentId, ...last] : last);
};

/** A line may be written on a garment's own page: then that garment is meant, unless nothing there fits. */
const inItsGarment = <T>(
  places: readonly PlaceToWork[],
  garmentId: string | undefined,
  read: (places: readonly PlaceToWork[]) => Reading<T>,
): Reading<T> => {
  const own = garmentId ? places.filter((place) => place.garmentId === garmentId) : [];
  const reading = own.length > 0 ? read(own) : undefined;
  return reading && reading.kind !== 'refuse' ? reading : read(places);
};

/** Reads a line of time against the garments that are being made. */
export const readLine = async (
  reading: Kept,
  clock: Clock,
  text: string,
  garmentId?: string,
): Promise<Reading<TimeLine>> => {
  const studio = await studioBook.the(reading);
  const { zone, locale } = studio.identity;
  const today = todayIn(clock, zone);
  const field = durationField(studio);
  const readers = {
    duration: (typed: string) => readDuration(typed, field),
    day: (typed: string) => readDate(typed, { today, locale }),
  };
  const places = await placesFor(reading, text, garmentId);
  return inItsGarment(places, garmentId, (those) => readTimeLine(text, those, today, readers));
};

/** Reads words that name work, without a time. */
export const readWorkWords = async (
  reading: Kept,
  text: string,
  garmentId?: string,
): Promise<Reading<LineWork>> => {
  const places = await placesFor(reading, text, garmentId);
  return inItsGarment(places, garmentId, (those) => readWork(foldTyped(text), those));
};
