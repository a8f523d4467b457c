import { CHANCES, type Chance, type Landing } from '../../../domain/commissions/landing/landing.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import { wholeMinutes } from '../../../domain/kernel/minutes.js';
import type { Money } from '../../../domain/kernel/money.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { minutesInWords } from '../../../web/words/durations.js';
import { chanceInWords } from '../sum/sum.page.js';

/** The three chances as people say them. */
export const CHANCE_WORDS: Readonly<Record<Chance, string>> = {
  '0.5': 'Even chance',
  '0.8': '4 in 5',
  '0.9': '9 in 10',
};

export const timeInWords = (minutes: Decimal): string => minutesInWords(wholeMinutes(minutes));

const profitInWords = (profit: Money, locale: string): string =>
  profit.isNegative()
    ? `loses ${moneyInWords(profit.negated(), locale)}`
    : `leaves ${moneyInWords(profit, locale)}`;

/** One plain sentence first: what it takes, how much of that is left, and what stays. */
export const leadInWords = ({ at }: Landing, locale: string): string => {
  const { minutes, left, profit } = at['0.5'];
  return left.isZero()
    ? `All is worked: it took ${timeInWords(minutes)} and ${profitInWords(profit, locale)}.`
    : `At even chance it takes ${timeInWords(minutes)} in all, ${timeInWords(left)} of it still to come, and ${profitInWords(profit, locale)}.`;
};

/** When the margin is gone, said against what is worked already. */
export const marginInWords = ({ marginGoneAt, soFar, chanceOfLoss }: Landing): string => {
  if (!marginGoneAt) return 'Nothing is worked yet that costs time.';
  if (marginGoneAt.lte(soFar.minutes)) return `Gone since ${timeInWords(marginGoneAt)}`;
  const chance = chanceOfLoss === null ? '' : `; the chance of that is ${chanceInWords(chanceOfLoss)}`;
  return `After ${timeInWords(marginGoneAt)}${chance}`;
};

/** The few figures of the section, each leading to its entries. */
export const landingPairs = (landing: Landing, url: string, locale: string): object[] => {
  const { soFar, at } = landing;
  return [
    {
      label: 'So far',
      text: `${timeInWords(soFar.minutes)}, ${moneyInWords(soFar.cost, locale)}`,
      href: `${url}#entries`,
    },
    {
      label: 'Forecast',
      text: `${timeInWords(at['0.5'].minutes)}, ${moneyInWords(at['0.5'].cost.cost, locale)}`,
      note: `4 in 5: ${timeInWords(at['0.8'].minutes)}; 9 in 10: ${timeInWords(at['0.9'].minutes)}`,
      href: `${url}#chances`,
    },
    { label: 'The margin is gone', text: marginInWords(landing), href: `${url}#sheet` },
    {
      label: 'The hour earns',
      text: at['0.5'].earnedPerHour
        ? moneyInWords(at['0.5'].earnedPerHour, locale)
        : 'nothing, there are no hours',
      href: `${url}#chances`,
    },
  ];
};

/** Minutes and money at each degree of certainty. */
export const chancesTable = (landing: Landing, locale: string): object => ({
  caption: 'Forecast at each degree of certainty',
  columns: [
    { text: 'Certainty' },
    { text: 'In all', figure: true },
    { text: 'Still to come', figure: true },
    { text: 'Cost', figure: true },
    { text: 'Profit', figure: true },
    { text: 'The hour earns', figure: true },
  ],
  rows: CHANCES.map((chance) => {
    const { minutes, left, cost, profit, earnedPerHour } = landing.at[chance];
    return {
      cells: [
        { text: CHANCE_WORDS[chance] },
        { text: timeInWords(minutes) },
        { text: timeInWords(left) },
        { text: amountInWords(cost.cost, locale) },
        { text: amountInWords(profit, locale) },
        { text: earnedPerHour ? amountInWords(earnedPerHour, locale) : '' },
      ],
    };
  }),
});

/** What the forecast rests on, and how much of it is mending. */
export const restsInWords = ({ rests, mendingLeft }: Landing): string =>
  mendingLeft.gte(1)
    ? `${restsOn(rests)} ${timeInWords(mendingLeft)} of it is mending: what your own errors usually take of such work.`
    : restsOn(rests);

const restsOn = (rests: Landing['rests']): string =>
  rests.garments === 0
    ? 'Nothing of your own is closed yet: what is left leans on starting values, which are judgement, and on what this garment has shown so far.'
    : `What is left rests on ${rests.garments} closed ${rests.garments === 1 ? 'garment' : 'garments'} of your own, and on what this garment has shown so far.`;
