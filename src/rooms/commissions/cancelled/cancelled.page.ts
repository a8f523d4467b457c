import { wholeMinutes } from '../../../domain/kernel/minutes.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { minutesInWords } from '../../../web/words/durations.js';
import type { CancelledTold } from './cancel-garment.js';

/** The caution of design 4-experience.md for what differs by country. */
export const CAUTION =
  'This adds up what you entered. Rules differ by country: made-to-measure and alteration differ in the right to cancel, and uncollected goods need notice. Check yours or ask a licensed adviser.';

/** Figures beside each other: what it cost so far, what was agreed, and each percentage that the terms name. */
export const figuresTable = (told: CancelledTold, locale: string): object => {
  const { figures, agreedPrice, terms, quoteName } = told;
  const row = (label: string, text: string, note = ''): object => ({
    cells: [{ text: label, ...(note ? { note } : {}) }, { text }],
  });
  const cost = figures
    ? [
        row('Time so far', moneyInWords(figures.time, locale), minutesInWords(wholeMinutes(figures.minutes))),
        row(
          'Materials so far',
          moneyInWords(figures.materials, locale),
          'what left the shelf for it, less what came back',
        ),
        ...(figures.expenses.isZero()
          ? []
          : [row('Expenses so far', moneyInWords(figures.expenses, locale))]),
        row('Cost so far', moneyInWords(figures.cost, locale), 'without profit'),
      ]
    : [row('Cost so far', 'not known', 'the studio has no rates yet')];
  return {
    caption: 'What it came to, beside what the terms name',
    columns: [{ text: 'What' }, { text: 'Amount, before tax', figure: true }],
    rows: [
      ...cost,
      agreedPrice
        ? row('Agreed price', moneyInWords(agreedPrice, locale), `${quoteName}, with the extras agreed since`)
        : row('Agreed price', 'none', 'no quote was accepted'),
      ...terms.map(({ sentence, percent, ofPrice }) =>
        row(`${percent.toFixed()} % of the agreed price`, moneyInWords(ofPrice, locale), sentence),
      ),
    ],
  };
};
