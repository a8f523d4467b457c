import type { Money } from '../../../domain/kernel/money.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { soldHour } from '../../../web/rates/hour-laid-open.js';

/** What an hour is sold at today, with overhead and profit; nothing before the first rate card. */
export const hourSoldToday = async (reading: Reading, clock: Clock): Promise<Money | undefined> => {
  const { identity, pricing } = await studioBook.the(reading);
  const card = await ratesBook.on(reading, todayIn(clock, identity.zone));
  return card && soldHour(card, pricing);
};
