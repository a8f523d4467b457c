import type { Client } from '../../../domain/clients/client.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Money } from '../../../domain/kernel/money.js';
import type { Statement } from '../../../domain/papers/settlement/statement.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { ClientAccount } from '../../../storage/books/papers/client-account-book.js';
import type { Reminder } from '../../../storage/books/payments/reminder-book.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { accountUrl, papersCrumb, paymentUrl } from '../payments/payment.page.js';
import type { Held, OwedRow } from './account-desk.js';
import { overdueOf } from './letters.js';

export const KIND_WORDS = {
  invoice: 'Invoice',
  'credit-note': 'Credit note',
  payment: 'Payment',
  refund: 'Given back',
  'payment-reversed': 'Payment reversed',
  'refund-reversed': 'Giving back reversed',
} as const;

const AT_ONCE = 50;

/** Who owes what, by age. */
export const owedPage = (
  { rows, all, sum }: { rows: readonly OwedRow[]; all: OwedRow['ages']; sum: Money },
  held: Held,
  after: string,
  { locale }: StudioIdentity,
): PageWords => {
  const money = (amount: Money): string => moneyInWords(amount, locale);
  const begin = after === '' ? 0 : rows.findIndex(({ clientId }) => clientId === after) + 1;
  const shown = rows.slice(begin, begin + AT_ONCE);
  const last = shown.at(-1);
  return {
    title: 'Who owes what',
    room: 'papers',
    crumbs: [papersCrumb],
    any: shown.length > 0,
    lead: sum.isZero() ? 'Nobody owes anything.' : `${money(sum)} is open, by how long it has been due.`,
    facts: [
      { label: 'Deposits held for garments not handed over', text: money(held.deposits), figure: true },
      { label: 'Other money held for clients', text: money(held.credit), figure: true },
    ],
    owed: {
      caption: 'Who owes what, by age',
      quietCaption: true,
      columns: [
        { text: 'Client' },
        ...all.map(({ age }) => ({ text: age.charAt(0).toUpperCase() + age.slice(1), figure: true })),
        { text: 'Together', figure: true },
      ],
      rows: shown.map(({ clientId, clientName, ages, owed }) => ({
        cells: [
          { text: clientName, href: accountUrl(clientId) },
          ...ages.map(({ amount }) => ({ text: money(amount) })),
          { text: money(owed) },
        ],
      })),
      foot: [
        {
          cells: [
            { text: 'Everybody' },
            ...all.map(({ amount }) => ({ text: money(amount) })),
            { text: money(sum) },
          ],
        },
      ],
    },
    pager: {
      label: 'Who owes what',
      ...(begin > 0 ? { earlier: { text: 'From the beginning', href: '/papers/owed' } } : {}),
      ...(last && begin + AT_ONCE < rows.length
        ? { later: { text: 'Further on', href: `/papers/owed?after=${last.clientId}` } }
        : {}),
    },
  };
};

/** What a client's account tells besides its papers and payments. */
export type AccountTold = {
  readonly deposits: Money;
  readonly today: CalendarDate;
  readonly identity: StudioIdentity;
  readonly reminders: readonly Reminder[];
};

/** One client's account: every paper and payment by date, with the balance after each. */
export const accountPage = (
  client: Client,
  of: ClientAccount,
  statement: Statement,
  told: AccountTold,
  form: FormModel = freshForm('', {
    which: told.reminders.length > 0 ? '2' : '1',
    toWhom: client.name,
    how: 'by mail',
  }),
): PageWords => {
  const { locale } = told.identity;
  const money = (amount: Money): string => moneyInWords(amount, locale);
  const { account } = of;
  const url = accountUrl(client.id);
  const overdue = overdueOf(account, told.today).length > 0;
  return {
    title: `Account of ${client.name}`,
    tab: 'Account of a client',
    room: 'papers',
    crumbs: [papersCrumb, { text: 'Who owes what', href: '/papers/owed' }],
    client: { text: client.name, href: `/clients/${client.id}` },
    lead: account.balance.isZero()
      ? 'Nothing is owed either way.'
      : account.balance.isNegative()
        ? `${money(account.balance.negated())} is held for ${client.name}.`
        : `${client.name} owes ${money(account.balance)}.`,
    facts: [
      { label: 'Open on papers', text: money(account.owed), figure: true },
      { label: 'Held for the client', text: money(account.credit), figure: true },
      ...(told.deposits.isZero()
        ? []
        : [
            { label: 'Deposits held for garments not handed over', text: money(told.deposits), figure: true },
          ]),
    ],
    any: statement.entries.length > 0,
    entries: {
      caption: 'Papers and payments by date',
      quietCaption: true,
      columns: [
        { text: 'Date' },
        { text: 'What' },
        { text: 'Invoiced', figure: true },
        { text: 'Paid or credited', figure: true },
        { text: 'Owed after it', figure: true },
      ],
      rows: statement.entries.map(({ on, kind, id, number, amount, balance }) => ({
        cells: [
          { text: dateInWords(on) },
          {
            text: [KIND_WORDS[kind], number].filter(Boolean).join(' '),
            href: kind === 'invoice' || kind === 'credit-note' ? `/papers/${id}` : paymentUrl(id),
          },
          { text: amount.isNegative() ? '' : money(amount) },
          { text: amount.isNegative() ? money(amount.negated()) : '' },
          { text: money(balance) },
        ],
      })),
    },
    take: `/papers/payments/new?client=${client.id}`,
    refund: account.credit.isZero() ? '' : `/papers/payments/refund?client=${client.id}`,
    statement: `${url}/statement.pdf`,
    reminders: overdue
      ? [
          { text: 'A reminder', href: `${url}/reminder.pdf?which=1` },
          { text: 'A second reminder', href: `${url}/reminder.pdf?which=2` },
        ]
      : [],
    anyReminders: overdue,
    form: { ...form, action: `${url}/reminders` },
    anySent: told.reminders.length > 0,
    sent: told.reminders.map(({ id, which, sentOn, toWhom, how, papers, sha256 }) => ({
      when: dateInWords(sentOn),
      text: `${which === 2 ? 'A second reminder' : 'A reminder'} of ${papers.join(', ')}, to ${toWhom}, ${how}.`,
      href: `${url}/reminders/${id}.pdf`,
      sha256,
    })),
  };
};
