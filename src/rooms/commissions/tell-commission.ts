import type { Client } from '../../domain/clients/client.js';
import type { PlannedGarment } from '../../domain/commissions/garment.js';
import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { Money } from '../../domain/kernel/money.js';
import { quoteState } from '../../domain/papers/quote/quote-answer.js';
import { agreedPlanBook } from '../../storage/books/bench/agreed-plan-book.js';
import { extraBook } from '../../storage/books/bench/extra-book.js';
import { garmentMarkBook } from '../../storage/books/bench/garment-mark-book.js';
import { clientBook } from '../../storage/books/client-book.js';
import { commissionBook } from '../../storage/books/commission-book.js';
import { garmentBook } from '../../storage/books/garment-book.js';
import { invoiceBook } from '../../storage/books/papers/invoice-book.js';
import { quoteBook } from '../../storage/books/papers/quote-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../storage/clock.js';
import type { Reading } from '../../storage/session.js';
import { quoteName, quoteStateInWords } from '../../web/papers/quote-state-words.js';
import { moneyInWords } from '../../web/words/amounts.js';
import type { CommissionTold } from './commission.page.js';
import { extrasTable } from './extras/extra-words.js';
import { pricingInWords } from './pricing.form.js';
import { type Pricing, pricingOf, sumOfPlanned } from './sum/sum-of.js';

/** Gathers what a commission's page tells. @throws NotFound */
export const tellCommission = async (reading: Reading, clock: Clock, id: string): Promise<CommissionTold> => {
  const commission = await commissionBook.one(reading, id);
  const { identity } = await studioBook.the(reading);
  const garments: PlannedGarment[] = [];
  for (const garment of await garmentBook.ofCommission(reading, id))
    garments.push(await garmentBook.planned(reading, garment.id));
  const people = await peopleOf(reading, [
    commission.clientId,
    commission.payerId,
    ...garments.map(({ garment }) => garment.wearerId),
  ]);
  const extras = await extraBook.ofCommission(reading, id);
  const names = new Map(garments.map(({ garment }) => [garment.id, garment.name]));
  return {
    commission,
    people,
    garments,
    standings: new Map(
      ((await garmentMarkBook.standingsIn(reading, [id])).get(id) ?? []).map((one) => [
        one.garmentId,
        one.standing,
      ]),
    ),
    ...(await pricesOf(reading, await pricingOf(reading, clock, id), garments)),
    pricing: pricingInWords(commission, identity.locale),
    extras: extras.length > 0 ? extrasTable(extras, identity.locale, names) : undefined,
    invoices: await invoiceBook.ofCommission(reading, id),
    locale: identity.locale,
    quote: await lastQuote(reading, id, todayIn(clock, identity.zone)),
  };
};

/** The newest quote that went out, and how it stands. */
const lastQuote = async (
  reading: Reading,
  id: string,
  today: CalendarDate,
): Promise<CommissionTold['quote']> => {
  const quotes = await quoteBook.ofCommission(reading, id);
  const newest = quotes.find((quote) => quoteState(quote, today) !== 'superseded') ?? quotes[0];
  return newest && { id: newest.id, words: `${quoteName(newest)}: ${quoteStateInWords(newest, today)}.` };
};

/** What was agreed for a garment stays its price; before that it is what the plan comes to. */
const pricesOf = async (
  reading: Reading,
  pricing: Pricing,
  garments: readonly PlannedGarment[],
): Promise<Pick<CommissionTold, 'prices' | 'total'>> => {
  const { locale, currency } = pricing.studio.identity;
  const prices = new Map<string, { text: string; note?: string }>();
  const nets: Money[] = [];
  for (const planned of garments) {
    const { quotedNet } = await agreedPlanBook.of(reading, planned.garment.id);
    const net = quotedNet ?? (await sumOfPlanned(pricing, planned))?.net;
    if (!net) return { prices, total: undefined };
    nets.push(net);
    const note = quotedNet ? 'agreed' : planned.garment.ownPrice ? 'set by hand' : undefined;
    prices.set(planned.garment.id, { text: moneyInWords(net, locale), ...(note ? { note } : {}) });
  }
  const total = Money.sum(nets, currency).minus(pricing.commission.discount);
  return { prices, total: moneyInWords(total, locale) };
};

/** The people of these ids, each read once. */
export const peopleOf = async (
  reading: Reading,
  ids: readonly string[],
): Promise<ReadonlyMap<string, Client>> => {
  const people = new Map<string, Client>();
  for (const one of new Set(ids)) people.set(one, await clientBook.one(reading, one));
  return people;
};
