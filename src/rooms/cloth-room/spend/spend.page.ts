import type { Decimal } from '../../../domain/kernel/decimal.js';
import type { Money } from '../../../domain/kernel/money.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { inWords } from '../stock-fields.js';
import { type CommissionSpend, type GarmentSpend, together } from './spend-of-commission.js';

type Manner = { readonly locale: string; readonly currency: string };

/** More or less than planned, in words. Favourable is positive. */
const differenceInWords = (amount: Money, locale: string, worse: string, better: string): string =>
  amount.isZero()
    ? ''
    : amount.isNegative()
      ? `${moneyInWords(amount.negated(), locale)} ${worse}`
      : `${moneyInWords(amount, locale)} ${better}`;

const leadOf = ({ garments, identity }: CommissionSpend): string => {
  const { locale, currency } = identity;
  const all = together(
    garments.flatMap(({ rows }) => rows),
    currency,
  );
  const why = [
    differenceInWords(all.price, locale, 'dearer in price', 'cheaper in price'),
    differenceInWords(all.usage, locale, 'over in what was used', 'not used yet, or saved'),
  ].filter(Boolean);
  const so = `Materials for ${moneyInWords(all.used, locale)} have been used, against ${moneyInWords(all.planned, locale)} planned`;
  return `${so}${why.length > 0 ? `: ${why.join(', ')}` : ''}.`;
};

/** What a commission takes of the cloth room, at a glance and line by line. */
export const spendPage = (spend: CommissionSpend): PageWords => {
  const { commission, garments, identity } = spend;
  const url = `/commissions/${commission.id}`;
  const manner: Manner = identity;
  return {
    title: `Materials of ${commission.number}`,
    room: 'commissions',
    crumbs: [
      { text: 'Commissions', href: '/commissions' },
      { text: commission.number, href: url },
    ],
    any: garments.some(({ rows }) => rows.length > 0),
    url,
    lead: leadOf(spend),
    glance: glanceTable(garments, url, manner),
    garments: garments
      .filter(({ rows }) => rows.length > 0)
      .map((garment) => ({
        id: garment.id,
        title: garment.name,
        quantities: quantitiesTable(garment, manner),
        money: moneyTable(garment, manner),
        cautions: garment.cautions.map(({ sentence }) => ({ text: sentence })),
      })),
  };
};

const signed = (amount: Money | undefined, { locale }: Manner): string =>
  amount === undefined
    ? ''
    : amount.isZero()
      ? amountInWords(amount, locale)
      : `${amount.isNegative() ? '' : '+'}${amountInWords(amount, locale)}`;

const MONEY_COLUMNS = ['Planned', 'Used', 'By price', 'By usage'];

const glanceTable = (garments: readonly GarmentSpend[], url: string, manner: Manner): object => {
  const cells = (rows: GarmentSpend['rows']) => {
    const { planned, used, price, usage } = together(rows, manner.currency);
    return [
      { text: amountInWords(planned, manner.locale) },
      { text: amountInWords(used, manner.locale) },
      { text: signed(price, manner) },
      { text: signed(usage, manner) },
    ];
  };
  return {
    caption: `At a glance, ${manner.currency}`,
    columns: [{ text: 'Garment' }, ...MONEY_COLUMNS.map((text) => ({ text, figure: true }))],
    rows: garments.map(({ id, name, place, rows }) => ({
      cells: [place > 0 ? { text: name, href: `${url}/garments/${id}` } : { text: name }, ...cells(rows)],
    })),
    foot: [{ cells: [{ text: 'Together' }, ...cells(garments.flatMap(({ rows }) => rows))] }],
  };
};

const quantitiesTable = ({ rows }: GarmentSpend, { locale }: Manner): object => ({
  caption: 'How much',
  columns: [
    { text: 'Material' },
    ...['Planned', 'Promised', 'Bought', 'Issued', 'Returned', 'Wasted', 'Left to issue'].map((text) => ({
      text,
      figure: true,
    })),
  ],
  rows: rows.map((row) => {
    const cell = (amount: Decimal) => ({ text: amount.isZero() ? '' : inWords(amount, row.unit, locale) });
    return {
      cells: [
        { text: row.name, ...(row.isPlanned ? {} : { note: 'not planned' }) },
        cell(row.planned),
        cell(row.reserved),
        cell(row.bought.quantity),
        cell(row.issued.quantity),
        cell(row.returned.quantity),
        cell(row.wasted.quantity),
        cell(row.toIssue),
      ],
    };
  }),
});

const moneyTable = ({ rows }: GarmentSpend, manner: Manner): object => ({
  caption: `What it comes to, ${manner.currency}`,
  columns: [{ text: 'Material' }, ...MONEY_COLUMNS.map((text) => ({ text, figure: true }))],
  rows: rows.map((row) => ({
    cells: [
      { text: row.name },
      { text: amountInWords(row.plannedCost, manner.locale) },
      { text: amountInWords(row.usedCost, manner.locale) },
      { text: signed(row.priceVariance, manner) },
      { text: signed(row.usageVariance, manner) },
    ],
  })),
});
