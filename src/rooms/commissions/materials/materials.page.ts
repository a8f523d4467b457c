import type { ExpenseLine, MaterialLine } from '../../../domain/commissions/garment.js';
import { Quantity } from '../../../domain/kernel/quantity.js';
import type { MoneyManner } from '../../../web/words/amounts.js';
import { amountInWords } from '../../../web/words/amounts.js';
import { quantityInWords } from '../../../web/words/cloth.js';
import { decimalSignOf, numeralText } from '../../../web/words/numeral.js';
import { shareInWords } from '../../../web/words/shares.js';

const CHARGED = { replacement: 'charged at replacement', cost: 'charged at cost', nil: 'not charged' };

const noteOf = (one: MaterialLine, manner: MoneyManner): string =>
  [
    ...(one.handling ? ['with handling'] : []),
    ...(one.replacementUnitCost
      ? [
          `stash, ${numeralText(one.replacementUnitCost, decimalSignOf(manner.locale))} to replace, ${CHARGED[one.chargeAt]}`,
        ]
      : []),
    ...(one.shownToClient ? [`the client reads “${one.clientWording || one.name}”`] : []),
  ].join('; ');

const wasteOf = (one: MaterialLine): string =>
  one.wasteShare.isZero()
    ? ''
    : `${shareInWords(one.wasteShare, 1)} of ${one.wasteOf === 'net' ? 'what is used' : 'the whole'}`;

/** The materials of a garment: each row opens to its own page, and can be taken out. */
export const materialsTable = (lines: readonly MaterialLine[], url: string, manner: MoneyManner): object => ({
  caption: 'Materials',
  quietCaption: true,
  columns: [
    { text: 'Material' },
    { text: 'Quantity', figure: true },
    { text: `Cost for one, ${manner.currency}`, figure: true },
    { text: 'Waste' },
  ],
  rows: lines.map((one) => ({
    cells: [
      { text: one.name, href: `${url}/materials/${one.id}`, note: noteOf(one, manner) },
      { text: quantityInWords(new Quantity(one.quantity, one.unit), manner.locale) },
      { text: numeralText(one.unitCost, decimalSignOf(manner.locale)) },
      { text: wasteOf(one) },
    ],
  })),
});

/** The direct expenses of a garment. */
export const expensesTable = (lines: readonly ExpenseLine[], url: string, manner: MoneyManner): object => ({
  caption: 'Expenses',
  quietCaption: true,
  columns: [{ text: 'Expense' }, { text: `Amount, ${manner.currency}`, figure: true }],
  rows: lines.map((one) => ({
    cells: [
      {
        text: one.name,
        href: `${url}/expenses/${one.id}`,
        note: one.shownToClient ? `the client reads “${one.clientWording || one.name}”` : '',
      },
      { text: amountInWords(one.amount, manner.locale) },
    ],
  })),
});
