import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import { type GarmentSum, garmentSum, type ThreeChances } from '../../../domain/commissions/garment-sum.js';
import type { Certainty } from '../../../domain/house/studio.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { MODE_WORDS } from '../../../domain/making/mode.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import type { Clock } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';
import { shareInWords } from '../../../web/words/shares.js';
import { howTable } from './how.page.js';
import { costLines, hoursInWords, priceLines, type SumLine } from './sum-lines.js';
import { type Pricing, pricingOf } from './sum-of.js';

/** The panel beside a making plan, in words. */
export type SumPanel = {
  readonly frame: string;
  /** Without rates there is no sum, but a place to go. */
  readonly noRates: boolean;
  readonly lead?: string;
  readonly rests?: string;
  readonly remarks?: readonly string[];
  readonly hours?: object;
  /** Each planned time as a plain multiplication; none while nothing is planned. */
  readonly how?: object | null;
  readonly cost?: { caption: string; lines: readonly SumLine[] };
  readonly price?: { caption: string; lines: readonly SumLine[] };
  readonly left?: readonly { label: string; text: string; figure: boolean }[];
  readonly budget?: { action: string };
};

export const CERTAINTY_WORDS: Readonly<Record<Certainty, string>> = {
  '0.5': 'even chance',
  '0.8': '4 in 5',
  '0.9': '9 in 10',
};

/** The panel of a garment as it is kept. */
export const sumPanel = async (reading: Reading, clock: Clock, garmentId: string): Promise<SumPanel> => {
  const planned = await garmentBook.planned(reading, garmentId);
  return sumPanelOf(await pricingOf(reading, clock, planned.garment.commissionId), planned);
};

/** The panel of a garment as it stands on a page, kept or not: for the live sum. */
export const sumPanelOf = async (pricing: Pricing, planned: PlannedGarment): Promise<SumPanel> => {
  const basis = await pricing.basisOf(planned);
  if (!basis) return { frame: 'sum', noRates: true };
  return {
    ...panelOf(pricing, planned, garmentSum({ planned, ...basis })),
    how: howTable(planned, basis, pricing),
  };
};

const panelOf = ({ studio, commission }: Pricing, { garment }: PlannedGarment, sum: GarmentSum): SumPanel => {
  const { locale, currency } = studio.identity;
  const manner = { locale, currency };
  const certainty = CERTAINTY_WORDS[commission.pricing.certainty];
  return {
    frame: 'sum',
    noRates: false,
    lead: `At ${certainty} this takes ${hoursInWords(sum.answer.minutes.priced)} and is priced at ${moneyInWords(sum.net, locale)}.`,
    rests: restsInWords(sum),
    remarks: remarksOn(sum),
    hours: hoursTable(sum),
    cost: { caption: 'What it costs', lines: costLines(sum, manner) },
    price: { caption: 'What to charge', lines: priceLines(sum, commission.pricing, studio.tax, manner) },
    left: leftInWords(sum, locale),
    budget: { action: `/commissions/${commission.id}/garments/${garment.id}/budget` },
  };
};

const restsInWords = (sum: GarmentSum): string => {
  const { on, garments } = sum.hours.rests;
  if (on === 'starting') {
    return 'Nothing of your own to go by yet: the spread of these hours leans on starting values, which are judgement.';
  }
  const such = countInWords(garments, 'such garment', 'such garments');
  return on === 'notebook'
    ? `Rests on ${such} from your notebook, and on this plan.`
    : `Rests on ${such} of your own.`;
};

const remarksOn = (sum: GarmentSum): string[] => [
  ...(sum.planned === 0
    ? ['There is no planned time yet, so this is the price of the materials alone.']
    : []),
  ...(sum.untimed.length > 0
    ? [`Not counted, since nobody has said how long it takes: ${sum.untimed.slice(0, 6).join(', ')}.`]
    : []),
  ...mendingInWords(sum),
  ...(sum.planned > 0 ? [doubtInWords(sum.hours.doubt)] : []),
];

/** Why the hours that are priced are more than the hours by mode. */
const mendingInWords = ({ answer, planned }: GarmentSum): string[] => {
  const { mending } = answer.costSheet;
  return planned > 0 && mending.minutes.gt(0)
    ? [
        `${hoursInWords(answer.minutes.priced)} hold ${hoursInWords(mending.minutes)} for mending; the hours by mode are those of the making alone.`,
      ]
    : [];
};

const doubtInWords = ({ garment, history, operations }: GarmentSum['hours']['doubt']): string => {
  const most = Math.max(garment, history, operations);
  if (most === history) return 'Most of the doubt is thin history: each garment you record narrows it.';
  if (most === garment) return 'Most of the doubt is this cloth and this client.';
  return 'Most of the doubt lies in single operations.';
};

const hoursTable = (sum: GarmentSum): object => {
  const row = (label: string, chances: ThreeChances): object => ({
    cells: [
      { text: label },
      { text: hoursInWords(chances.even), figure: true },
      { text: hoursInWords(chances.fourInFive), figure: true },
      { text: hoursInWords(chances.nineInTen), figure: true },
    ],
  });
  return {
    caption: 'How long it takes',
    columns: [
      { text: 'Mode' },
      { text: 'Even', figure: true },
      { text: '4 in 5', figure: true },
      { text: '9 in 10', figure: true },
    ],
    rows: sum.hours.byMode.map((mode) => row(capitalised(MODE_WORDS[mode.mode]), mode)),
    foot: [row('The whole', sum.hours.total)],
  };
};

const leftInWords = (sum: GarmentSum, locale: string): { label: string; text: string; figure: boolean }[] => {
  const { price, chanceOfLoss } = sum.answer;
  const share = (part: Decimal | null): string => (part ? shareInWords(part, 1) : 'none');
  return [
    { label: 'Profit', text: amountInWords(price.profit, locale), figure: true },
    { label: 'As margin on the price', text: share(price.margin), figure: true },
    { label: 'As markup on the cost', text: share(price.markup), figure: true },
    {
      label: 'An hour would earn',
      text: price.earnedPerHour ? amountInWords(price.earnedPerHour, locale) : 'nothing, there are no hours',
      figure: true,
    },
    {
      label: 'Lowest price that pays the wage',
      text: amountInWords(price.lowestThatPaysTheWage, locale),
      figure: true,
    },
    ...(price.breakEvenMinutes
      ? [{ label: 'Nothing is left after', text: hoursInWords(price.breakEvenMinutes), figure: true }]
      : []),
    ...(chanceOfLoss === null
      ? []
      : [{ label: 'Chance that it loses money', text: chanceInWords(chanceOfLoss), figure: true }]),
  ];
};

/** A chance as people say it: `12 %, about 1 in 8`. */
export const chanceInWords = (chance: number): string => {
  if (chance < 0.005) return 'under 1 %';
  if (chance > 0.995) return 'nearly certain';
  const percent = shareInWords(new Decimal(chance.toFixed(4)));
  return chance <= 0.4
    ? `${percent}, about 1 in ${new Decimal(1).div(chance.toFixed(6)).toFixed(0)}`
    : percent;
};
