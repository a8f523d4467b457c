import type { PricingChoices } from '../../domain/house/studio.js';
import type { Decimal } from '../../domain/kernel/decimal.js';
import { Money } from '../../domain/kernel/money.js';
import { marginOfMarkup } from '../../domain/pricing/margin.js';
import { hoursOfYear, hourWithMargin, TEMPTING_YEAR, temptingRate } from '../../domain/rates/hourly-rate.js';
import { overheadPools, type PoolWorking, type RateCard, workingHour } from '../../domain/rates/rate-card.js';
import type { PersonTerms } from '../../domain/rates/rate-workings.js';
import { amountInWords, moneyInWords } from '../words/amounts.js';
import { shareInWords } from '../words/shares.js';

/** A line of a figure-sum, see templates/components/figure-sum. */
export type SumLine = {
  label: string;
  figure: string;
  note?: string;
  kind?: 'total' | 'final';
  working?: string;
  parts?: SumLine[];
};

/** A number in the studio's manner: `1,564`, `969.68`. */
export const figureInWords = (value: Decimal, locale: string, places = 2): string =>
  new Intl.NumberFormat(locale, { maximumFractionDigits: places }).format(
    value.toDecimalPlaces(places).toFixed() as Parameters<Intl.NumberFormat['format']>[0],
  );

const BASE_WORDS = {
  'productive-hours': 'an hour worked',
  'machine-hours': 'an hour on the machine',
  'labour-cost': 'of the labour',
  'material-cost': 'of the material',
} as const;

/** The rate of a pool in words: `5.38 an hour worked`, `12.5 % of the labour`. */
export const poolRateInWords = (
  pool: Pick<PoolWorking, 'base' | 'rate'>,
  currency: string,
  locale: string,
): string =>
  pool.base.endsWith('-hours')
    ? `${amountInWords(Money.rounded(pool.rate, currency), locale)} ${BASE_WORDS[pool.base]}`
    : `${shareInWords(pool.rate, 2)} ${BASE_WORDS[pool.base]}`;

/** How one pool came to its rate. */
export const poolLine = (pool: PoolWorking, card: RateCard, locale: string): SumLine => {
  const { currency } = card.workings;
  const isHours = pool.base.endsWith('-hours');
  const over = isHours
    ? `${figureInWords(pool.budgetedBase, locale)} h`
    : amountInWords(Money.rounded(pool.budgetedBase, currency), locale);
  const anHour =
    pool.base === 'labour-cost' ? card.perHour.timesRounded(pool.rate) : Money.rounded(pool.rate, currency);
  return {
    label: `Overhead: ${pool.name}`,
    note: `${amountInWords(pool.budget, locale)} a year ÷ ${over}`,
    figure: pool.base === 'material-cost' ? shareInWords(pool.rate, 2) : amountInWords(anHour, locale),
    working: `That is ${poolRateInWords(pool, currency, locale)}.`,
    parts: pool.items.map(({ name, amount }) => ({ label: name, figure: amountInWords(amount, locale) })),
  };
};

const labourLines = (person: PersonTerms, card: RateCard, locale: string): SumLine[] => {
  if (person.plainPerHour || !person.year)
    return [{ label: 'Labour', note: 'said plainly', figure: amountInWords(card.perHour, locale) }];
  const { weeks, hoursAWeek, productiveShare } = person.year;
  const { worked, productive } = hoursOfYear(person.year);
  const labour = person.onCosts.reduce((sum, { amount }) => sum.plus(amount), person.pay);
  const [year, hours] = [figureInWords(worked, locale), figureInWords(productive, locale)];
  return [
    {
      label: 'Hours worked in a year',
      figure: `${year} h`,
      note: `${figureInWords(weeks, locale)} weeks × ${figureInWords(hoursAWeek, locale)} h`,
    },
    {
      label: 'Of these, into garments',
      note: `${year} h × ${shareInWords(productiveShare, 1)}`,
      figure: `${hours} h`,
      working: `The rest goes to post, buying, sweeping and visitors.`,
    },
    {
      label: 'Labour',
      note: `${amountInWords(labour, locale)} a year ÷ ${hours} h`,
      figure: amountInWords(card.perHour, locale),
      parts: [
        { label: 'Pay wanted', figure: amountInWords(person.pay, locale) },
        ...person.onCosts.map(({ name, amount }) => ({ label: name, figure: amountInWords(amount, locale) })),
      ],
    },
  ];
};

/** The hour as it is sold, by the house's profit. */
export const soldHour = (
  card: RateCard,
  pricing: Pick<PricingChoices, 'profitBasis' | 'profitShare'>,
): Money => {
  const { total } = workingHour(card);
  const margin = pricing.profitBasis === 'margin' ? pricing.profitShare : marginOfMarkup(pricing.profitShare);
  return Money.rounded(hourWithMargin(total.toDecimal(), margin), total.currency);
};

const personOfCard = ({ workings, person }: RateCard): PersonTerms =>
  workings.people.find(({ name }) => name === person) ?? workings.people[0]!;

/** What an hour costs, line by line, ready for a figure-sum; every line opens to its working. */
export const hourLaidOpen = (
  card: RateCard,
  pricing: Pick<PricingChoices, 'profitBasis' | 'profitShare'>,
  locale: string,
): SumLine[] => {
  const { total, labour, overhead } = workingHour(card);
  const pools = overheadPools(card.workings).filter(
    ({ base }) => base === 'productive-hours' || base === 'labour-cost',
  );
  const share = shareInWords(pricing.profitShare, 2);
  const basis = pricing.profitBasis === 'margin' ? 'of the price' : 'on the cost';
  return [
    ...labourLines(personOfCard(card), card, locale),
    ...pools.map((pool) => poolLine(pool, card, locale)),
    {
      label: 'An hour at the bench costs',
      kind: 'total',
      note: `${amountInWords(labour, locale)} labour + ${amountInWords(overhead, locale)} overhead`,
      figure: moneyInWords(total, locale),
    },
    {
      label: `With ${share} profit ${basis}`,
      note:
        pricing.profitBasis === 'margin'
          ? `${amountInWords(total, locale)} ÷ (100 % − ${share})`
          : `${amountInWords(total, locale)} × (100 % + ${share})`,
      kind: 'final',
      figure: moneyInWords(soldHour(card, pricing), locale),
    },
  ];
};

/** The sum most people do first, set beside the true one; nothing where the pay is not known. */
export const trapWords = (card: RateCard, locale: string): string | undefined => {
  const { pay, plainPerHour } = personOfCard(card);
  if (plainPerHour || pay.isZero()) return undefined;
  const { productive } = hoursOfYear(TEMPTING_YEAR);
  const { total } = workingHour(card);
  return `The same pay over 52 weeks of 40 hours (${figureInWords(productive, locale)} h) looks like ${moneyInWords(temptingRate(pay), locale)} an hour. That sum forgets holidays, every hour that no client pays for, and the rent: each hour sold at it falls short of the ${moneyInWords(total, locale)} it costs.`;
};
