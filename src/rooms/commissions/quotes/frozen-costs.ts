import type { Commission } from '../../../domain/commissions/commission.js';
import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import type { GarmentSum } from '../../../domain/commissions/garment-sum.js';
import type { Studio } from '../../../domain/house/studio.js';
import { MODE_WORDS } from '../../../domain/making/mode.js';
import type { PriceParts } from '../../../domain/papers/quote/quote-difference.js';
import type { KeptRateCard } from '../../../storage/books/rates-book.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { shareInWords } from '../../../web/words/shares.js';
import { pricingInWords } from '../pricing.form.js';
import { CERTAINTY_WORDS, chanceInWords } from '../sum/sum.page.js';
import { costLines, hoursInWords, priceLines, type SumLine } from '../sum/sum-lines.js';

type Pair = { readonly label: string; readonly text: string };

/** The studio's side of one garment of a quote: what it rested on, as figures and as the words of that day. */
export type FrozenGarment = {
  readonly ref: string;
  readonly name: string;
  readonly parts: PriceParts;
  readonly plan: PlannedGarment['plan'];
  readonly materials: PlannedGarment['materials'];
  readonly expenses: PlannedGarment['expenses'];
  readonly ownPrice: PlannedGarment['garment']['ownPrice'];
  readonly hours: GarmentSum['hours'];
  readonly answer: GarmentSum['answer'];
  readonly told: {
    readonly lead: string;
    readonly hours: readonly Pair[];
    readonly left: readonly Pair[];
    readonly cost: readonly SumLine[];
    readonly price: readonly SumLine[];
  };
};

/** Everything a quote rested on that the client never sees. */
export type FrozenCosts = {
  /** The version whose prices were kept, where they were. */
  readonly pricesOf: string | undefined;
  readonly rates: KeptRateCard | undefined;
  readonly pricing: Commission['pricing'];
  readonly tax: Studio['tax'];
  readonly told: { readonly rates: readonly Pair[]; readonly pricing: readonly Pair[] };
  readonly garments: readonly FrozenGarment[];
};

/** A price taken apart for a later comparison. */
export const partsOf = ({ net, answer }: GarmentSum): PriceParts => {
  const { costSheet } = answer;
  return {
    net,
    time: costSheet.cost.minus(costSheet.materials).minus(costSheet.expenses),
    minutes: answer.minutes.priced,
    materials: costSheet.materials.plus(costSheet.stashUplift),
    expenses: costSheet.expenses,
  };
};

/** Freezes what one garment's price rests on. */
export const freezeGarment = (
  { garment, plan, materials, expenses }: PlannedGarment,
  sum: GarmentSum,
  { studio, commission }: { readonly studio: Studio; readonly commission: Commission },
): FrozenGarment => {
  const { locale, currency } = studio.identity;
  const manner = { locale, currency };
  return {
    ref: garment.id,
    name: garment.name,
    parts: partsOf(sum),
    plan,
    materials,
    expenses,
    ownPrice: garment.ownPrice,
    hours: sum.hours,
    answer: sum.answer,
    told: {
      lead: `At ${CERTAINTY_WORDS[commission.pricing.certainty]} this takes ${hoursInWords(sum.answer.minutes.priced)} and is priced at ${moneyInWords(sum.net, locale)}.`,
      hours: hoursTold(sum),
      left: leftTold(sum, locale),
      cost: costLines(sum, manner),
      price: priceLines(sum, commission.pricing, studio.tax, manner),
    },
  };
};

const hoursTold = ({ hours }: GarmentSum): Pair[] => {
  const { total } = hours;
  return [
    { label: 'Even chance', text: hoursInWords(total.even) },
    { label: '4 in 5', text: hoursInWords(total.fourInFive) },
    { label: '9 in 10', text: hoursInWords(total.nineInTen) },
  ];
};

const leftTold = ({ answer: { price, chanceOfLoss } }: GarmentSum, locale: string): Pair[] => [
  { label: 'Profit', text: amountInWords(price.profit, locale) },
  ...(price.margin ? [{ label: 'Margin', text: shareInWords(price.margin, 1) }] : []),
  ...(price.markup ? [{ label: 'Markup', text: shareInWords(price.markup, 1) }] : []),
  ...(price.earnedPerHour
    ? [{ label: 'An hour would earn', text: amountInWords(price.earnedPerHour, locale) }]
    : []),
  ...(chanceOfLoss === null ? [] : [{ label: 'Chance of a loss', text: chanceInWords(chanceOfLoss) }]),
];

/** Freezes what all garments share: rates and pricing, as figures and in words. */
export const freezeTerms = (
  studio: Studio,
  commission: Commission,
  rates: KeptRateCard | undefined,
): Omit<FrozenCosts, 'garments' | 'pricesOf'> => ({
  rates,
  pricing: commission.pricing,
  tax: studio.tax,
  told: {
    rates: rates ? ratesTold(rates, studio.identity.locale) : [],
    pricing: pricingInWords(commission, studio.identity.locale),
  },
});

const ratesTold = (rates: KeptRateCard, locale: string): Pair[] => [
  { label: 'Rates of', text: dateInWords(rates.from) },
  { label: 'An hour of work', text: moneyInWords(rates.perHour, locale) },
  ...Object.entries(rates.perHourByMode).map(([mode, rate]) => ({
    label: capitalised(MODE_WORDS[mode as keyof typeof MODE_WORDS]),
    text: moneyInWords(rate, locale),
  })),
  ...(rates.machinePerHour.isZero()
    ? []
    : [{ label: 'A machine hour', text: moneyInWords(rates.machinePerHour, locale) }]),
  ...rates.overhead.map(({ name, base, rate }) => ({
    label: `Overhead: ${name}`,
    text: base.endsWith('-cost') ? shareInWords(rate, 2) : `${rate.toFixed()} an hour`,
  })),
];
