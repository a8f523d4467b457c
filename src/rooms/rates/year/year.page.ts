import { figureInWords } from '../../../web/rates/hour-laid-open.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import type { Year } from './gather-year.js';
import { type YearLine, yearLines } from './year-lines.js';

/** A year in figures: money, hours, and what the garments closed in it earned. */
export const yearPage = (year: Year, present: string): PageWords => {
  const { locale, currency } = year.identity;
  const lines = yearLines(year);
  const { garments } = year;
  const [best, worst] = [garments.byType[0], garments.byType.at(-1)];
  const named = (one: (typeof garments.byType)[number]): string =>
    `${year.typeNames.get(one.typeId) ?? one.typeId} at ${moneyInWords(one.perHour, locale)} an hour`;
  const table = (caption: string, part: string, figure: string, of: (line: YearLine) => string): object => ({
    caption,
    columns: [{ text: 'What' }, { text: figure, figure: true }],
    rows: lines
      .filter((line) => line.part === part)
      .map((line) => ({
        cells: [
          { text: line.what, note: line.note ?? '' },
          { text: of(line), figure: true },
        ],
      })),
  });
  const amount = ({ amount: own }: YearLine): string => (own ? amountInWords(own, locale) : '');
  const hours = ({ hours: own }: YearLine): string => (own ? `${figureInWords(own, locale, 1)} h` : '');
  const years = Array.from({ length: 3 }, (_, back) => String(Number(present) - back));
  return {
    title: `The year ${year.year}`,
    room: 'rates',
    crumbs: [{ text: 'Rates', href: '/rates' }],
    lead: `From ${dateInWords(year.from)} to ${dateInWords(year.to)}: received ${moneyInWords(year.received, locale)}, ${countInWords(garments.garments, 'garment')} closed.`,
    asked: year.year,
    years: years
      .filter((one) => one !== year.year)
      .map((one) => ({ text: one, href: `/rates/year?year=${one}` })),
    money: table('Money', 'Money', currency, amount),
    hours: table('Hours', 'Hours', 'Hours', hours),
    closed: table('Garments closed in this year', 'Garments closed', currency, amount),
    without:
      garments.without > 0
        ? `${countInWords(garments.without, 'garment')} closed without a reckoning ${garments.without === 1 ? 'is' : 'are'} not in these sums.`
        : '',
    bestAndWorst:
      best && worst && best !== worst
        ? `Best: ${named(best)}. Worst: ${named(worst)}.`
        : best
          ? `${named(best)}: the only type closed in this year.`
          : 'No garment with a reckoning was closed in this year.',
    anyTypes: garments.byType.length > 0,
    types: {
      caption: 'What an hour earned, by garment type',
      columns: [
        { text: 'Garment type' },
        { text: 'Garments', figure: true },
        { text: 'Hours', figure: true },
        { text: 'Profit', figure: true },
        { text: 'An hour earned', figure: true },
      ],
      rows: garments.byType.map((one) => ({
        cells: [
          { text: year.typeNames.get(one.typeId) ?? one.typeId },
          { text: String(one.garments), figure: true },
          { text: `${figureInWords(one.minutes.div(60), locale, 1)} h`, figure: true },
          { text: amountInWords(one.profit, locale), figure: true },
          { text: amountInWords(one.perHour, locale), figure: true },
        ],
      })),
    },
    csv: `/rates/year/table.csv?year=${year.year}`,
  };
};
