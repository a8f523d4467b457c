import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { type RateCard, rateCard } from '../../domain/rates/rate-card.js';
import { rateOn } from '../../domain/rates/rate-on.js';
import { RateCardRow } from '../rows/rates/rate-card.row.js';
import { keptIn, type Reading, type Writing } from '../session.js';
import { rateWorkingsOf, rateWorkingsText } from './rate-workings-text.js';

/** A rate card with its key. */
export type KeptRateCard = RateCard & { readonly id: string };

/** The book of rates: dated cards. A change is a new card; none is ever rewritten. */
export const ratesBook = {
  /** Every card, the newest first. */
  async all(reading: Reading): Promise<KeptRateCard[]> {
    const rows = await reading.manager.find(RateCardRow, { order: { from_day: 'DESC', id: 'DESC' } });
    return rows.map((row) => cardOf(row));
  },

  /**
   * What an hour costs on a day.
   *
   * @param person whose hour; the first of the card when left out
   * @returns undefined before the first card begins
   */
  async on(reading: Reading, day: CalendarDate, person?: string): Promise<KeptRateCard | undefined> {
    return keptIn(reading, `rates on ${day} ${person ?? ''}`, async () => {
      const rows = await reading.manager.find(RateCardRow, { order: { from_day: 'ASC', id: 'ASC' } });
      const row = rateOn(
        rows.map((each) => ({ from: each.from_day, each })),
        day,
      )?.each;
      return row && cardOf(row, person);
    });
  },

  /** Adds a card that holds from its day on. */
  async setFrom(writing: Writing, card: RateCard): Promise<KeptRateCard> {
    const row = await writing.insert(RateCardRow, {
      id: writing.newId(),
      from_day: card.from,
      workings: rateWorkingsText(card.workings),
    });
    return cardOf(row, card.person);
  },

  /** Reads every card's figures in another currency: only while nothing was priced with them. */
  async relabel(writing: Writing, currency: string): Promise<void> {
    for (const row of await writing.manager.find(RateCardRow)) {
      const workings = rateWorkingsText(rateWorkingsOf(row.workings, currency));
      await writing.update(RateCardRow, row.id, { workings });
    }
  },
};

const cardOf = (row: RateCardRow, person?: string): KeptRateCard => ({
  id: row.id,
  ...rateCard(row.from_day, rateWorkingsOf(row.workings), person),
});
