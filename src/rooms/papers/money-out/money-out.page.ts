import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Money } from '../../../domain/kernel/money.js';
import {
  type KindTotal,
  MONEY_OUT_KINDS,
  type MoneyOut,
  toPay,
} from '../../../domain/money-out/money-out.js';
import { owedInAll } from '../../../domain/money-out/supplier-credit.js';
import type { PageOf } from '../../../storage/books/client-book.js';
import type { OverheadYear } from '../../../storage/books/money-out/overhead-year.js';
import type { Owed, OwedToMerchant } from '../../../storage/books/money-out/owed.js';
import { billSubject, type PaidOut } from '../../../storage/books/money-out/paid-out-book.js';
import { freshForm } from '../../../web/forms/form.js';
import { overheadSoFar } from '../../../web/rates/overhead-so-far.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';

export const HERE = '/papers/money-out';
export const papersCrumb = { text: 'Papers', href: '/papers' };
export const billUrl = (id: string): string => `${HERE}/${id}`;
export const payUrl = (about: string): string => `${HERE}/pay?about=${encodeURIComponent(about)}`;

/** Everything the page of money out tells. */
export type MoneyOutTold = {
  readonly merchants: readonly OwedToMerchant[];
  readonly outworkers: readonly Owed[];
  readonly bills: readonly Owed[];
  readonly totals: readonly KindTotal[];
  readonly span: readonly [CalendarDate, CalendarDate];
  readonly year: OverheadYear | undefined;
  readonly list: PageOf<MoneyOut>;
  readonly paid: ReadonlyMap<string, PaidOut>;
  readonly reversed: ReadonlySet<string>;
  readonly after: string;
  readonly identity: StudioIdentity;
};

const isCredit = ({ about }: Owed): boolean => about.startsWith('sent-back/');

const sumRow = (text: string, amount: Money, locale: string) => ({
  cells: [{ text }, { text: '' }, { text: '' }, { text: amountInWords(amount, locale) }, { text: '' }],
});

/** What is owed to each merchant with more than one line, so that a credit is seen against what it comes off. */
const byMerchant = (merchants: readonly OwedToMerchant[], locale: string) => {
  const each = owedInAll(merchants);
  return each.length < 2
    ? []
    : each
        .filter(({ toId }) => merchants.filter((one) => one.toId === toId).length > 1)
        .map(({ to, amount }) => sumRow(`${to}, in all`, amount, locale));
};

const owedTable = (
  caption: string,
  owed: readonly Owed[],
  { currency, locale }: StudioIdentity,
  sums: readonly ReturnType<typeof sumRow>[] = [],
) => ({
  caption,
  columns: [
    { text: 'To' },
    { text: 'Since' },
    { text: 'Paper' },
    { text: `To pay, ${currency}`, figure: true },
    { text: '' },
  ],
  rows: owed.map((one) => ({
    cells: [
      { text: one.to },
      { text: dateInWords(one.on) },
      { text: one.paperNumber, ...(isCredit(one) ? { note: 'sent back' } : {}) },
      { text: amountInWords(one.amount, locale) },
      { text: isCredit(one) ? 'Mark as settled' : 'Mark as paid', href: payUrl(one.about), note: '' },
    ],
  })),
  foot: [
    ...sums,
    sumRow(
      'Together',
      Money.sum(
        owed.map(({ amount }) => amount),
        currency,
      ),
      locale,
    ),
  ],
});

const totalsTable = (
  totals: readonly KindTotal[],
  [from, to]: MoneyOutTold['span'],
  identity: StudioIdentity,
) => {
  const amount = (money: Money): string => amountInWords(money, identity.locale);
  const together = (of: 'overhead' | 'direct' | 'tax'): string =>
    amount(
      Money.sum(
        totals.map((total) => total[of]),
        identity.currency,
      ),
    );
  return {
    caption: `By kind, ${dateInWords(from)} to ${dateInWords(to)}`,
    columns: [
      { text: 'Kind' },
      { text: 'Overhead', figure: true },
      { text: 'For garments', figure: true },
      { text: 'Tax that comes back', figure: true },
    ],
    rows: totals.map((total) => ({
      cells: [
        { text: capitalised(MONEY_OUT_KINDS[total.kind].words) },
        { text: amount(total.overhead) },
        { text: amount(total.direct) },
        { text: amount(total.tax) },
      ],
    })),
    foot: [
      {
        cells: [
          { text: `Together, ${identity.currency}` },
          { text: together('overhead') },
          { text: together('direct') },
          { text: together('tax') },
        ],
      },
    ],
  };
};

const standOf = (bill: MoneyOut, told: Pick<MoneyOutTold, 'paid' | 'reversed'>): string => {
  if (bill.of) return 'takes another back';
  if (told.reversed.has(bill.id)) return 'reversed';
  const paid = told.paid.get(billSubject(bill.id));
  return paid ? `paid ${dateInWords(paid.paidOn)}` : 'owed';
};

const owedInWords = (owed: Money, any: boolean, locale: string): string => {
  if (!any) return 'Nothing is owed.';
  if (owed.isZero()) return 'What is owed and what merchants owe back come to the same.';
  return owed.isNegative()
    ? `Merchants owe ${moneyInWords(owed.negated(), locale)} more than is owed.`
    : `${moneyInWords(owed, locale)} is owed.`;
};

/** Money out: what is owed, what was spent by kind, overhead so far, and every bill. */
export const moneyOutPage = (told: MoneyOutTold): PageWords => {
  const { merchants, outworkers, bills, totals, list, identity, span, year } = told;
  const { locale, currency } = identity;
  const lines: readonly Owed[] = [...merchants, ...outworkers, ...bills];
  const owed = Money.sum(
    lines.map(({ amount }) => amount),
    currency,
  );
  const [from, to] = span;
  return {
    title: 'Money out',
    room: 'papers',
    crumbs: [papersCrumb],
    none: list.items.length === 0 && !told.after && lines.length === 0,
    lead: owedInWords(owed, lines.length > 0, locale),
    owed: [
      { caption: 'Owed to merchants', of: merchants, sums: byMerchant(merchants, locale) },
      { caption: 'Owed to outworkers', of: outworkers },
      { caption: 'Other bills to pay', of: bills },
    ].flatMap(({ caption, of, sums }) => (of.length > 0 ? [owedTable(caption, of, identity, sums)] : [])),
    anyTotals: totals.length > 0,
    totals: totalsTable(totals, span, identity),
    span: freshForm(HERE, { from, to }),
    overhead: year ? overheadSoFar(year, locale) : '',
    anyBills: list.items.length > 0,
    bills: {
      caption: 'Bills, newest first',
      columns: [
        { text: 'Date' },
        { text: 'To' },
        { text: 'For' },
        { text: 'How it stands' },
        { text: `With tax, ${currency}`, figure: true },
      ],
      rows: list.items.map((bill) => ({
        cells: [
          { text: dateInWords(bill.on), href: billUrl(bill.id) },
          { text: bill.payee, note: bill.paperNumber },
          { text: MONEY_OUT_KINDS[bill.kind].words, note: bill.garmentName },
          { text: standOf(bill, told) },
          { text: amountInWords(toPay(bill), locale) },
        ],
      })),
    },
    pager: {
      label: 'Bills',
      ...(told.after ? { earlier: { text: 'From the newest', href: HERE } } : {}),
      ...(list.next ? { later: { text: 'Older bills', href: `${HERE}?after=${list.next}` } } : {}),
    },
  };
};
