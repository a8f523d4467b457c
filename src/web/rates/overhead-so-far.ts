import { Decimal } from '../../domain/kernel/decimal.js';
import type { Money } from '../../domain/kernel/money.js';
import type { OverheadYear } from '../../storage/books/money-out/overhead-year.js';
import { moneyInWords } from '../words/amounts.js';
import { dateInWords } from '../words/dates.js';
import { figureInWords, type SumLine } from './hour-laid-open.js';

/** Overhead of the year so far as words and a figure-sum. */
export type OverheadTold = {
  readonly caption: string;
  readonly lead: string;
  readonly lines: SumLine[];
  readonly why: string;
  readonly meaning: string;
};

const away = (money: Money): Money => (money.isNegative() ? money.negated() : money);

const leadOf = (year: OverheadYear, money: (amount: Money) => string): string => {
  if (year.verdict === 'even') return 'So far this year the work has taken up exactly what overhead cost.';
  const by = money(away(year.difference));
  return year.verdict === 'under-absorbed'
    ? `So far this year overhead cost ${by} more than the work has taken up: under-absorbed.`
    : `So far this year the work has taken up ${by} more than overhead cost: over-absorbed.`;
};

const whyOf = ({ spending, volume }: OverheadYear, money: (amount: Money) => string): string => {
  const spent = spending.isZero()
    ? 'What was spent is what the rates budgeted'
    : `${money(away(spending))} ${spending.isNegative() ? 'more' : 'less'} was spent than the rates budgeted for these days`;
  const worked = volume.isZero()
    ? 'as much work went into garments as was budgeted.'
    : `the work took up ${money(away(volume))} ${volume.isNegative() ? 'less' : 'more'} than budgeted.`;
  return `${spent}; ${worked}`;
};

const meaningOf = (
  { absorbedPerHour, neededPerHour, verdict, factor }: OverheadYear,
  money: (amount: Money) => string,
  locale: string,
): string => {
  if (!absorbedPerHour || !neededPerHour)
    return 'No hours went into garments yet, so nothing can be said of the rate.';
  if (factor === null)
    return `An hour carries no overhead yet; ${money(neededPerHour)} would have taken up what was spent.`;
  if (verdict === 'even') return 'The rate is right so far.';
  const change = figureInWords(factor.minus(1).abs().times(new Decimal(100)), locale, 1);
  const way = verdict === 'under-absorbed' ? 'higher' : 'lower';
  return `An hour carried ${money(absorbedPerHour)} of overhead; ${money(neededPerHour)} would have been right: rates ${change} % ${way}. If the year goes on like this, set them so from a day on; what was quoted stays as it is.`;
};

/** Absorbed against incurred, why they differ, and what it means for the rate. */
export const overheadSoFar = (year: OverheadYear, locale: string): OverheadTold => {
  const money = (amount: Money): string => moneyInWords(amount, locale);
  const hours = `${figureInWords(year.hours, locale, 1)} h on garments`;
  return {
    caption: 'Overhead so far this year',
    lead: leadOf(year, money),
    lines: [
      {
        label: 'Taken up by the work',
        note: hours,
        figure: money(year.absorbed),
        parts: [...year.byPool].map(([label, amount]) => ({ label, figure: money(amount) })),
      },
      {
        label: 'Spent on overhead',
        note: `bills dated ${dateInWords(year.from)} to ${dateInWords(year.to)}`,
        figure: money(year.incurred),
      },
      {
        label: year.difference.isNegative() ? 'Under-absorbed' : 'Over-absorbed',
        kind: 'total',
        note: 'taken up less spent',
        figure: money(year.difference),
      },
    ],
    why: whyOf(year, money),
    meaning: meaningOf(year, money, locale),
  };
};
