import type { Money } from '../../domain/kernel/money.js';
import { standingPrice } from '../../domain/pricing/price-list.js';
import { priceListBook } from '../../storage/books/price-list-book.js';
import { ratesBook } from '../../storage/books/rates-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../storage/clock.js';
import type { Reading } from '../../storage/session.js';
import { soldHour } from './hour-laid-open.js';

/** A job of the house price list at today's hour; without a price while no hour is known and none was put by hand. */
export type CounterPrice = { readonly id: string; readonly job: string; readonly price: Money | undefined };

/** Counter work of the house price list, priced today. */
export const counterPrices = async (reading: Reading, clock: Clock): Promise<CounterPrice[]> => {
  const { identity, pricing } = await studioBook.the(reading);
  const card = await ratesBook.on(reading, todayIn(clock, identity.zone));
  const perHour = card && soldHour(card, pricing);
  return (await priceListBook.all(reading))
    .filter(({ sort }) => sort === 'counter')
    .map(({ id, name, hours, trimmings, ownPrice }) => ({
      id,
      job: name,
      price:
        ownPrice ??
        (perHour &&
          standingPrice({
            currency: identity.currency,
            hours,
            perHour: perHour.toDecimal(),
            roundTo: pricing.roundTo,
            ...(trimmings && { trimmings }),
            ...(pricing.minimumCharge && { minimumCharge: pricing.minimumCharge }),
          }).price),
    }));
};
