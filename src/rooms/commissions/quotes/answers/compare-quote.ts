import type { Commission } from '../../../../domain/commissions/commission.js';
import type { Studio } from '../../../../domain/house/studio.js';
import { Money } from '../../../../domain/kernel/money.js';
import {
  differenceByCause,
  noParts,
  type PriceDifference,
} from '../../../../domain/papers/quote/quote-difference.js';
import { quotableGarment } from '../../../../storage/books/bench/agreed-plan-book.js';
import { garmentBook } from '../../../../storage/books/garment-book.js';
import { type IssuedQuote, quoteBook } from '../../../../storage/books/papers/quote-book.js';
import { pricePartsOf } from '../../../../storage/books/papers/quote-text.js';
import type { Clock } from '../../../../storage/clock.js';
import type { Reading } from '../../../../storage/session.js';
import { pricingOf, sumOfPlanned } from '../../sum/sum-of.js';
import { partsOf } from '../frozen-costs.js';
import { costsOf, documentOf } from '../kept-prices.js';

/** One garment's price then and now; `today` is missing where it is no longer in the commission or has no price. */
export type GarmentThenAndNow = {
  readonly ref: string;
  readonly name: string;
  readonly earlier: Money;
  readonly today: Money | undefined;
  readonly difference: PriceDifference | undefined;
};

export type ThenAndNow = {
  readonly quote: IssuedQuote;
  readonly studio: Studio;
  readonly commission: Commission;
  readonly garments: readonly GarmentThenAndNow[];
};

/** An issued quote beside what the same garments would be priced at today, by cause. @throws NotFound */
export const compareQuote = async (reading: Reading, clock: Clock, quoteId: string): Promise<ThenAndNow> => {
  const quote = await quoteBook.one(reading, quoteId);
  const pricing = await pricingOf(reading, clock, quote.commissionId);
  const present = new Set((await garmentBook.ofCommission(reading, quote.commissionId)).map(({ id }) => id));
  const frozen = new Map(costsOf(quote).garments.map((garment) => [garment.ref, garment]));
  const { currency } = quote.total;
  const garments: GarmentThenAndNow[] = [];
  for (const { ref, name } of documentOf(quote).draft.garments) {
    const kept = frozen.get(ref);
    const then = kept ? pricePartsOf(kept.parts, currency) : noParts(currency);
    const sum = present.has(ref)
      ? await sumOfPlanned(pricing, await quotableGarment(reading, ref))
      : undefined;
    const now = sum?.net.currency === currency ? partsOf(sum) : undefined;
    garments.push({
      ref,
      name,
      earlier: then.net,
      today: now?.net,
      difference: now && differenceByCause(then, now),
    });
  }
  return { quote, studio: pricing.studio, commission: pricing.commission, garments };
};
