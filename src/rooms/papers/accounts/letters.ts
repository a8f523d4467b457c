import type { Client } from '../../../domain/clients/client.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Money } from '../../../domain/kernel/money.js';
import { ibanInFours } from '../../../domain/papers/payment/iban.js';
import type { Account, PaperStanding } from '../../../domain/papers/settlement/account.js';
import { ageOf } from '../../../domain/papers/settlement/balance.js';
import type { Statement } from '../../../domain/papers/settlement/statement.js';
import type { AccountLetter, LetterCell } from '../../../printing/papers/account-letter.js';
import type { Said } from '../../../printing/papers/quote-sheet.js';
import { envelopeOf, letterheadOf } from '../../../web/papers/house-on-paper.js';
import { type LetterManner, letterManner } from '../payments/letter-manner.js';

const words = (text: string): LetterCell => ({ text, figure: false });
const figure = (text: string): LetterCell => ({ text, figure: true });

const headOf = (studio: Studio, client: Client, { language, said }: LetterManner) => ({
  language,
  letterhead: letterheadOf(studio, { language }),
  number: '',
  to: said.to,
  client: { name: client.name, address: envelopeOf(client) },
});

/** Where money is to be paid to; nothing where the house has said no account. */
const paidTo = ({ papers }: Studio, { said }: LetterManner): Said[] =>
  papers.iban === ''
    ? []
    : [
        { label: said.pay.account, words: ibanInFours(papers.iban) },
        { label: said.pay.accountName, words: papers.accountName },
        { label: said.pay.bank, words: [papers.bank, papers.bic].filter(Boolean).join(', ') },
      ].filter((pair) => pair.words !== '');

/** A statement of account in words. */
export const statementLetter = (
  studio: Studio,
  client: Client,
  statement: Statement,
  span: { readonly from?: CalendarDate | undefined; readonly to: CalendarDate; readonly today: CalendarDate },
): AccountLetter => {
  const manner = letterManner(studio, client);
  const { said, money, date } = manner;
  const { statement: heads } = said;
  const { before, after, entries } = statement;
  const row = (day: string, what: string, asked: string, paid: string, balance: Money, total = false) => ({
    cells: [words(day), words(what), figure(asked), figure(paid), figure(money(balance))],
    total,
  });
  const held = after.isNegative();
  return {
    ...headOf(studio, client, manner),
    title: heads.title,
    particulars: [
      { label: said.date, words: date(span.today) },
      ...(span.from ? [{ label: heads.from, words: date(span.from) }] : []),
      { label: heads.until, words: date(span.to) },
    ],
    opening: [],
    table: {
      columns: [
        words(said.date),
        words(heads.what),
        figure(heads.asked),
        figure(heads.paid),
        figure(heads.balance),
      ],
      rows: [
        ...(span.from ? [row('', heads.before, '', '', before)] : []),
        ...entries.map(({ on, kind, number, amount, balance }) =>
          row(
            date(on),
            [heads.kinds[kind], number].filter(Boolean).join(' '),
            amount.isNegative() ? '' : money(amount),
            amount.isNegative() ? money(amount.negated()) : '',
            balance,
          ),
        ),
        row('', held ? heads.held : heads.due, '', '', held ? after.negated() : after, true),
      ],
    },
    pairs: after.minor > 0 ? paidTo(studio, manner) : [],
    closing: after.isZero() ? [heads.settled] : [],
  };
};

/** The papers a reminder may name: open, and due before today. */
export const overdueOf = (account: Account, today: CalendarDate): PaperStanding[] =>
  account.papers
    .filter(({ open, due }) => open.minor > 0 && ageOf(due, today) !== 'not yet due')
    .sort((a, b) => a.due.localeCompare(b.due));

/** A reminder in neutral words: what is open, where to pay it, and nothing of the law. */
export const reminderLetter = (
  studio: Studio,
  client: Client,
  overdue: readonly PaperStanding[],
  said: { readonly which: 1 | 2; readonly today: CalendarDate },
): AccountLetter => {
  const manner = letterManner(studio, client);
  const { money, date } = manner;
  const heads = manner.said.reminder;
  const place = said.which === 1 ? 0 : 1;
  const sum = Money.sum(
    overdue.map(({ open }) => open),
    studio.identity.currency,
  );
  return {
    ...headOf(studio, client, manner),
    title: heads.titles[place],
    particulars: [{ label: manner.said.date, words: date(said.today) }],
    opening: [heads.openings[place]],
    table: {
      columns: [
        words(heads.invoice),
        words(heads.dated),
        words(heads.due),
        figure(heads.amount),
        figure(heads.open),
      ],
      rows: [
        ...overdue.map((paper) => ({
          cells: [
            words(paper.number),
            words(date(paper.issued)),
            words(date(paper.due)),
            figure(money(paper.total)),
            figure(money(paper.open)),
          ],
          total: false,
        })),
        {
          cells: [words(heads.total), words(''), words(''), figure(''), figure(money(sum))],
          total: true,
        },
      ],
    },
    pairs: paidTo(studio, manner),
    closing: [heads.crossed, heads.talk],
  };
};
