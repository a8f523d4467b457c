import { clientBook } from '../../../storage/books/client-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import { measurementBook } from '../../../storage/books/measuring/measurement-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import type { MeasuringDesk } from './take.page.js';

/** Lays out what measuring a client needs. @throws NotFound */
export const layOutDesk = async (
  reading: Reading,
  clock: Clock,
  clientId: string,
): Promise<MeasuringDesk> => {
  const client = await clientBook.one(reading, clientId);
  const { identity } = await studioBook.the(reading);
  return {
    client,
    sets: await measurementBook.ofClient(reading, clientId),
    types: (await makingBook.types(reading)).filter(({ measuringList }) => measuringList.length > 0),
    known: await dimensionBook.all(reading),
    unit: identity.lengthUnit,
    today: todayIn(clock, identity.zone),
  };
};
