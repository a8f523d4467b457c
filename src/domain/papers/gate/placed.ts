import type { Decimal } from '../../kernel/decimal.js';
import type { Money } from '../../kernel/money.js';
import type { Paper } from '../model/paper.js';
import type { TaxCategory } from '../tax/category.js';

/** Where on a paper a category stands, its signed amount (an allowance comes in negative) and its rate. */
export type Placed = {
  readonly where: 'line' | 'allowance' | 'charge';
  readonly words: string;
  readonly field: string;
  readonly amount: Money;
  readonly rate?: Decimal;
};

/** Every place of one category, lines first. */
export const placedIn = (paper: Paper, category: TaxCategory): Placed[] => [
  ...paper['BG-25'].flatMap((line, index): Placed[] =>
    line['BT-151'] === category
      ? [
          {
            where: 'line',
            words: line['BT-153'],
            field: `lines.${index}`,
            amount: line['BT-131'],
            rate: line['BT-152'],
          },
        ]
      : [],
  ),
  ...paper['BG-20'].flatMap((each, index): Placed[] =>
    each['BT-95'] === category
      ? [
          {
            where: 'allowance',
            words: each['BT-97'] ?? `Allowance ${index + 1}`,
            field: `allowances.${index}`,
            amount: each['BT-92'].negated(),
            rate: each['BT-96'],
          },
        ]
      : [],
  ),
  ...paper['BG-21'].flatMap((each, index): Placed[] =>
    each['BT-102'] === category
      ? [
          {
            where: 'charge',
            words: each['BT-104'] ?? `Charge ${index + 1}`,
            field: `charges.${index}`,
            amount: each['BT-99'],
            rate: each['BT-103'],
          },
        ]
      : [],
  ),
];
