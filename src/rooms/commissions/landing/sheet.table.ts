import type { CostColumn } from '../../../domain/commissions/landing/columns.js';
import type { Landing } from '../../../domain/commissions/landing/landing.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import type { Money } from '../../../domain/kernel/money.js';
import { earnedPerHour } from '../../../domain/pricing/work-out-price.js';
import { type FrozenReckoning, frozenMoney } from '../../../domain/reckoning/frozen-reckoning.js';
import { amountInWords } from '../../../web/words/amounts.js';
import { timeInWords } from './landing-words.js';

/** Planned, so far, forecast at even chance, actual: each line says where its entries stand. */
export const sheetTable = (
  planned: CostColumn,
  { soFar, at, price }: Landing,
  reckoned: FrozenReckoning | undefined,
  locale: string,
): object => {
  const actual = (of: (frozen: FrozenReckoning) => string | null): string => {
    const text = reckoned && of(reckoned);
    return reckoned && text ? amount(frozenMoney(reckoned, text)) : '';
  };
  const whole = at['0.5'].cost;
  const columns = [planned, soFar, whole] as const;
  const row = (
    text: string,
    href: string | undefined,
    of: (column: CostColumn) => string,
    frozen = '',
  ): object => ({
    cells: [
      { text, ...(href ? { href } : {}) },
      ...columns.map((column) => ({ text: of(column) })),
      { text: frozen },
    ],
  });
  const amount = (money: Money): string => amountInWords(money, locale);
  const pools = [...new Set(columns.flatMap(({ overheadByPool }) => [...overheadByPool.keys()]))];
  const onlyWhole = (text: string, of: (column: CostColumn) => string, frozen: string): object => ({
    cells: [{ text }, { text: of(planned) }, { text: '' }, { text: of(whole) }, { text: frozen }],
  });
  return {
    caption: 'Cost sheet',
    columns: [
      { text: 'What' },
      { text: 'Planned', figure: true },
      { text: 'So far', figure: true },
      { text: 'Forecast', figure: true },
      { text: 'Actual', figure: true },
    ],
    rows: [
      row(
        'Time',
        '#operations',
        ({ minutes }) => timeInWords(minutes),
        reckoned ? timeInWords(new Decimal(reckoned.cost.minutes)) : '',
      ),
      row(
        'Materials',
        '#materials',
        ({ materials }) => amount(materials),
        actual(({ cost }) => cost.materials),
      ),
      row(
        'Labour',
        '#entries',
        ({ labour }) => amount(labour),
        actual(({ cost }) => cost.labour),
      ),
      row(
        'Machine',
        '#entries',
        ({ machine }) => amount(machine),
        actual(({ cost }) => cost.machine),
      ),
      ...pools.map((pool) =>
        row(`Overhead: ${pool}`, '/rates', ({ overheadByPool }) => {
          const own = overheadByPool.get(pool);
          return own ? amount(own) : '';
        }),
      ),
      ...(reckoned
        ? [
            {
              cells: [
                { text: 'Overhead together' },
                ...columns.map(({ overhead }) => ({ text: amount(overhead) })),
                { text: actual(({ cost }) => cost.overhead) },
              ],
            },
          ]
        : []),
      row(
        'Expenses',
        '#expenses',
        ({ expenses }) => amount(expenses),
        actual(({ cost }) => cost.expenses),
      ),
    ],
    foot: [
      row(
        'Cost',
        undefined,
        ({ cost }) => amount(cost),
        actual(({ cost }) => cost.cost),
      ),
      onlyWhole(
        'Price before tax',
        () => amount(price),
        actual((one) => one.price),
      ),
      onlyWhole(
        'Profit',
        ({ cost }) => amount(price.minus(cost)),
        actual((one) => one.actualProfit),
      ),
      onlyWhole(
        'The hour earns',
        ({ cost, labour, minutes }) => {
          const earned = earnedPerHour(price.minus(cost), labour, minutes);
          return earned ? amount(earned) : '';
        },
        actual((one) => one.earnedPerHour),
      ),
    ],
  };
};
