import { type FrozenReckoning, frozenMoney } from '../../../domain/reckoning/frozen-reckoning.js';
import { BRIDGE_WORDS, type BridgeStep } from '../../../domain/reckoning/reckon.js';
import { moneyInWords } from '../../../web/words/amounts.js';

type Bridged = Pick<FrozenReckoning, 'currency' | 'price' | 'quotedProfit' | 'actualProfit' | 'bridge'>;

/** Steps as the subject of a sentence. */
const HEAVIEST: Readonly<Record<BridgeStep, string>> = {
  'extras-charged': 'the extras',
  'extras-given': 'what was given with our compliments',
  'own-error': 'own error',
  'kept-back': 'what was kept back for the unexpected',
  'labour-efficiency': 'the hours',
  'labour-rate': 'what an hour cost',
  'material-price': 'what the materials cost',
  'material-usage': 'how much material went in',
  machine: 'the machine',
  overhead: 'overhead',
  expenses: 'the expenses',
  price: 'the price asked in the end',
};

/** One plain sentence first: what was left, against what was quoted, and what weighs most. */
export const reckoningSentence = (one: Bridged, locale: string): string => {
  const money = (text: string) => frozenMoney(one, text);
  const [quoted, actual] = [money(one.quotedProfit), money(one.actualProfit)];
  const difference = actual.minus(quoted);
  const left = actual.isNegative()
    ? `It lost ${moneyInWords(actual.negated(), locale)}`
    : `It left ${moneyInWords(actual, locale)}`;
  if (difference.isZero()) return `${left}, just as it was quoted.`;
  const against = difference.isNegative()
    ? `${moneyInWords(difference.negated(), locale)} less than quoted`
    : `${moneyInWords(difference, locale)} more than quoted`;
  const sign = difference.isNegative() ? -1 : 1;
  const [heaviest] = [...one.bridge]
    .map(({ step, amount }) => ({ step, weight: sign * money(amount).minor }))
    .sort((a, b) => b.weight - a.weight);
  const why = heaviest && heaviest.weight > 0 ? `: above all ${HEAVIEST[heaviest.step]}` : '';
  return `${left}, ${against}${why}.`;
};

/** What the hour earned, against what it was to earn. */
export const hourSentence = (
  one: Pick<FrozenReckoning, 'currency' | 'earnedPerHour' | 'quotedPerHour' | 'shouldHaveCharged' | 'price'>,
  locale: string,
): string => {
  const said = (text: string) => moneyInWords(frozenMoney(one, text), locale);
  if (one.earnedPerHour === null) return 'No hours were written down, so nobody can say what one earned.';
  const planned = one.quotedPerHour === null ? '' : `; ${said(one.quotedPerHour)} was quoted`;
  return `The hour earned ${said(one.earnedPerHour)}${planned}. At the quoted margin it should have cost ${said(one.shouldHaveCharged)}; ${said(one.price)} was asked, before tax.`;
};

/** The bridge as rows: from the quoted profit, step by step, to the actual one. */
export const bridgeTable = (one: Bridged, locale: string): object => {
  const cell = (text: string): object => ({ text: signed(frozenMoney(one, text), locale) });
  return {
    caption: 'From the quoted profit to the actual one',
    columns: [{ text: 'Why' }, { text: 'Money', figure: true }],
    rows: [
      {
        cells: [
          { text: 'Profit as quoted' },
          { text: moneyInWords(frozenMoney(one, one.quotedProfit), locale) },
        ],
      },
      ...one.bridge
        .filter(({ amount }) => !frozenMoney(one, amount).isZero())
        .map(({ step, amount }) => ({ cells: [{ text: capital(BRIDGE_WORDS[step]) }, cell(amount)] })),
    ],
    foot: [
      {
        cells: [
          { text: 'Profit as it was' },
          { text: moneyInWords(frozenMoney(one, one.actualProfit), locale) },
        ],
      },
    ],
  };
};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const signed = (money: ReturnType<typeof frozenMoney>, locale: string): string =>
  money.isNegative() ? `− ${moneyInWords(money.negated(), locale)}` : `+ ${moneyInWords(money, locale)}`;
