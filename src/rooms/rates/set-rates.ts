import type { Studio } from '../../domain/house/studio.js';
import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { Stale } from '../../domain/kernel/errors.js';
import { rateCard } from '../../domain/rates/rate-card.js';
import { rateOn } from '../../domain/rates/rate-on.js';
import type { RateWorkings } from '../../domain/rates/rate-workings.js';
import { type KeptRateCard, ratesBook } from '../../storage/books/rates-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import type { Visit } from '../../storage/session.js';
import type { Done, UnitOfWork } from '../../storage/unit-of-work.js';
import { dateInWords } from '../../web/words/dates.js';

/** New workings out of those in force on the day, if there are any. */
export type Change = (inForce: RateWorkings | undefined, studio: Studio) => RateWorkings;

/**
 * Adds a card that holds from a day on. Cards before it stay as they are.
 *
 * @param seen how many cards there were when the form was drawn
 * @throws Stale when somebody added a card meanwhile
 */
export const setRates = (
  unit: UnitOfWork,
  visit: Visit,
  from: CalendarDate,
  change: Change,
  seen?: number,
): Promise<Done<KeptRateCard>> =>
  unit.write(visit, async (writing) => {
    const [studio, cards] = [await studioBook.the(writing), await ratesBook.all(writing)];
    if (seen !== undefined && seen !== cards.length) throw new Stale({ version: cards.length });
    const card = await ratesBook.setFrom(writing, rateCard(from, change(inForceOn(cards, from), studio)));
    writing.says(`Set the rates from ${dateInWords(from)}`, `rates/${card.id}`);
    return card;
  });

/** The workings that hold on a day; before the first card, those of the earliest. */
export const inForceOn = (cards: readonly KeptRateCard[], day: CalendarDate): RateWorkings | undefined =>
  (rateOn([...cards].reverse(), day) ?? cards.at(-1))?.workings;
