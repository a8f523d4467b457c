import { AWAY_WORDS } from '../../../domain/bench/bench-entry.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import { hoursOf } from '../../../domain/kernel/minutes.js';
import type { Money } from '../../../domain/kernel/money.js';
import { MODE_WORDS } from '../../../domain/making/mode.js';
import { capitalised } from '../../../web/words/counts.js';
import type { Year } from './gather-year.js';

/** One figure of a year: an amount, or hours. */
export type YearLine = {
  readonly part: string;
  readonly what: string;
  readonly amount?: Money | undefined;
  /** To two decimals. */
  readonly hours?: Decimal | undefined;
  readonly note?: string;
};

const hours = (minutes: number): Decimal => hoursOf(minutes).toDecimalPlaces(2);

/** Every figure of a year in its order: what the page, the CSV and programs read. */
export const yearLines = (year: Year): YearLine[] => {
  const { garments, overhead, hours: worked } = year;
  const money = (what: string, amount: Money, note = ''): YearLine => ({ part: 'Money', what, amount, note });
  const time = (what: string, minutes: number, note = ''): YearLine => ({
    part: 'Hours',
    what,
    hours: hours(minutes),
    note,
  });
  const closed = (what: string, amount: Money): YearLine => ({ part: 'Garments closed', what, amount });
  return [
    money('Received', year.received, 'payments less refunds'),
    money('Invoiced before tax', year.invoiced),
    money('Credited before tax', year.credited),
    money('Invoiced less credited', year.invoiced.minus(year.credited)),
    money('Materials used, at cost', year.used, 'from the cloth room into garments'),
    ...(year.ownErrorCost ? [money('Own errors at the rates of their days', year.ownErrorCost)] : []),
    ...(overhead
      ? [
          money('Overhead taken up by the work', overhead.absorbed),
          money('Overhead spent', overhead.incurred),
          money('Taken up less spent', overhead.difference),
        ]
      : []),
    time('On garments', worked.onGarments),
    ...worked.byMode.map(({ mode, minutes }) => time(capitalised(MODE_WORDS[mode]), minutes)),
    time('Own errors', worked.ownError, 'among the hours on garments'),
    time('Basting that is taken out again', year.basting, 'among the hours on garments'),
    time('Without a garment', worked.away),
    ...worked.byKind.map(({ kind, minutes }) => time(capitalised(AWAY_WORDS[kind]), minutes)),
    closed('Prices', garments.price),
    closed('Profit', garments.profit),
    closed('Materials at cost', garments.materials),
    closed('Materials at replacement', garments.materialsAtReplacement),
    ...garments.byType.map(
      ({ typeId, perHour, minutes, garments: count }): YearLine => ({
        part: 'Earned an hour',
        what: year.typeNames.get(typeId) ?? typeId,
        amount: perHour,
        hours: hoursOf(minutes).toDecimalPlaces(2),
        note: `${count}`,
      }),
    ),
  ];
};
