import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { Money } from '../../../domain/kernel/money.js';
import type { PaperStanding } from '../../../domain/papers/settlement/account.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PageOf } from '../../../storage/books/client-book.js';
import type { ClientAccount, PaidCommission } from '../../../storage/books/papers/client-account-book.js';
import type { KeptPayment } from '../../../storage/books/papers/payment-book.js';
import type { Receipt } from '../../../storage/books/payments/receipt-book.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyForField, moneyInWords } from '../../../web/words/amounts.js';
import { dateInWords, instantInWords } from '../../../web/words/dates.js';
import { stillHeld, type Went } from './went-to.js';

export const papersCrumb = { text: 'Papers', href: '/papers' };
export const paymentsCrumb = { text: 'Payments', href: '/papers/payments' };
export const paymentUrl = (id: string): string => `/papers/payments/${id}`;
export const accountUrl = (clientId: string): string => `/papers/accounts/${clientId}`;

const KIND_WORDS = { payment: 'Payment', refund: 'Given back', reversal: 'Reversal' } as const;

/** The client holds the receipt still, and what was printed is never printed again. */
const RECEIPT_FELL =
  'This payment was reversed after the receipt was written. The receipt stays as it went out, and is no longer true: ask for it back, or tell the client.';

type Drawn = { template: string; words: PageWords };

/** Payments, newest first. */
export const paymentsPage = (
  found: PageOf<KeptPayment>,
  after: string,
  { locale }: StudioIdentity,
): PageWords => ({
  title: 'Payments',
  room: 'papers',
  crumbs: [papersCrumb],
  any: found.items.length > 0,
  noneYet: found.items.length === 0 && !after,
  found: {
    caption: 'Payments, newest first',
    quietCaption: true,
    columns: [{ text: 'Date' }, { text: 'Client' }, { text: 'What' }, { text: 'Amount', figure: true }],
    rows: found.items.map((payment) => ({
      cells: [
        { text: dateInWords(payment.on), href: paymentUrl(payment.id) },
        { text: payment.clientName, href: accountUrl(payment.clientId) },
        {
          text: KIND_WORDS[payment.kind],
          note: payment.reversedBy ? 'reversed' : payment.kind === 'reversal' ? payment.note : payment.how,
        },
        { text: moneyInWords(payment.amount, locale) },
      ],
    })),
  },
  pager: {
    label: 'Payments',
    ...(after ? { earlier: { text: 'From the newest', href: '/papers/payments' } } : {}),
    ...(found.next
      ? { later: { text: 'Older payments', href: `/papers/payments?after=${found.next}` } }
      : {}),
  },
});

const askedOf = (papers: readonly PaperStanding[], locale: string) =>
  papers.map((paper) => ({
    name: `part.${paper.id}`,
    label: paper.number,
    hint:
      paper.open.minor > 0
        ? `${moneyInWords(paper.open, locale)} open, payable by ${dateInWords(paper.due)}.`
        : 'Nothing is open on it any more.',
  }));

/** The form that takes a payment from a client. */
export const takePage = (
  form: FormModel,
  of: ClientAccount,
  asks: readonly PaperStanding[],
  commissions: readonly PaidCommission[],
  { locale, currency }: StudioIdentity,
): Drawn => ({
  template: 'paper-room/payments/take',
  words: {
    title: `A payment from ${of.clientName}`,
    tab: 'A payment',
    room: 'papers',
    crumbs: [papersCrumb, paymentsCrumb],
    form: { ...form, action: `/papers/payments/new?client=${of.clientId}` },
    lead: of.account.owed.isZero()
      ? 'Nothing is open. What comes in now is held for the client.'
      : `${moneyInWords(of.account.owed, locale)} is open.`,
    currency,
    anyAsks: asks.length > 0,
    asks: askedOf(asks, locale),
    commissions: commissions.map(({ id, number, title }) => ({
      value: id,
      text: `${number} ${title}`.trim(),
    })),
    anyCommissions: commissions.length > 0,
    leave: { text: 'Leave without saving', href: accountUrl(of.clientId) },
  },
});

export const freshPayment = (today: string, amount = ''): FormModel =>
  freshForm('', { on: today, how: 'bank transfer', amount });

/** The form that gives money back. */
export const refundPage = (
  form: FormModel,
  of: ClientAccount,
  { locale, currency }: StudioIdentity,
): Drawn => ({
  template: 'paper-room/payments/refund',
  words: {
    title: `Give money back to ${of.clientName}`,
    tab: 'Give money back',
    room: 'papers',
    crumbs: [papersCrumb, paymentsCrumb],
    form: { ...form, action: `/papers/payments/refund?client=${of.clientId}` },
    lead: of.account.credit.isZero()
      ? 'Nothing is held for this client.'
      : `${moneyInWords(of.account.credit, locale)} is held for this client.`,
    currency,
    leave: { text: 'Leave without saving', href: accountUrl(of.clientId) },
  },
});

export const freshRefund = (of: ClientAccount, today: string, { locale }: StudioIdentity): FormModel =>
  freshForm('', {
    on: today,
    how: 'bank transfer',
    amount: of.account.credit.isZero() ? '' : moneyForField(of.account.credit, locale),
  });

/** Everything a payment's page tells. */
export type PaymentTold = {
  readonly payment: KeptPayment;
  readonly went: readonly Went[];
  readonly receipt: Receipt | undefined;
  readonly commission: PaidCommission | undefined;
  readonly statement: string | undefined;
  readonly today: string;
  readonly identity: StudioIdentity;
};

/** One payment: what it went to, and what can be done about it. */
export const paymentPage = (told: PaymentTold, reversing?: FormModel): Drawn => {
  const { payment, went, receipt, commission, identity } = told;
  const { locale, zone } = identity;
  const url = paymentUrl(payment.id);
  const stands = payment.kind !== 'reversal' && payment.reversedBy === undefined;
  const held = stillHeld(payment, went);
  const reverse = { ...(reversing ?? freshForm('', { on: told.today })), action: `${url}/reversal` };
  return {
    template: 'paper-room/payments/payment',
    words: {
      title: `${KIND_WORDS[payment.kind]}: ${moneyInWords(payment.amount, locale)}, ${payment.clientName}`,
      tab: KIND_WORDS[payment.kind],
      room: 'papers',
      crumbs: [papersCrumb, paymentsCrumb],
      ...(reversing ? { form: reverse } : {}),
      facts: [
        { label: 'Client', text: payment.clientName, href: accountUrl(payment.clientId) },
        { label: 'Amount', text: moneyInWords(payment.amount, locale) },
        { label: 'Day', text: dateInWords(payment.on) },
        { label: 'How', text: payment.how },
        { label: payment.kind === 'reversal' ? 'Reason' : 'Remark', text: payment.note },
        { label: 'Put down', text: `${instantInWords(payment.writtenAt, zone)}, ${payment.who}` },
        ...(commission
          ? [{ label: 'For', text: commission.number, href: `/commissions/${commission.id}` }]
          : []),
        ...(payment.of
          ? [{ label: 'Reverses', text: 'an earlier entry', href: paymentUrl(payment.of) }]
          : []),
        ...(payment.reversedBy
          ? [{ label: 'Reversed by', text: 'a later entry', href: paymentUrl(payment.reversedBy) }]
          : []),
        ...(told.statement
          ? [
              {
                label: 'From',
                text: 'a line of a bank statement',
                href: `/papers/payments/bank/${told.statement}`,
              },
            ]
          : []),
      ].filter(({ text }) => text !== ''),
      anyWent: went.length > 0 || !held.isZero(),
      went: {
        caption: payment.kind === 'refund' ? 'What it was taken from' : 'What it went to',
        columns: [{ text: 'Paper' }, { text: 'Amount', figure: true }],
        rows: [
          ...went.map(({ paperId, paymentId, number, amount }) => ({
            cells: [
              paperId
                ? { text: number, href: `/papers/${paperId}` }
                : {
                    text: payment.kind === 'refund' ? 'Money held for the client' : 'Given back',
                    href: paymentUrl(paymentId ?? ''),
                  },
              { text: moneyInWords(amount, locale) },
            ],
          })),
          ...(held.isZero() ? [] : [heldRow(payment, held, locale)]),
        ],
      },
      receipt: receipt ? { text: `Receipt ${receipt.number}`, href: `${url}/receipt.pdf` } : null,
      sha256: receipt?.sha256 ?? '',
      receiptFell: receipt && payment.reversedBy ? RECEIPT_FELL : '',
      writeReceipt:
        stands && payment.kind === 'payment' && !receipt
          ? { action: `${url}/receipt`, text: 'Write a receipt', once: freshForm('').once }
          : null,
      move: stands && payment.kind === 'payment' ? `${url}/move` : '',
      mayReverse: stands,
      reverse,
    },
  };
};

const heldRow = ({ clientId }: KeptPayment, held: Money, locale: string): object => ({
  cells: [{ text: 'Held for the client', href: accountUrl(clientId) }, { text: moneyInWords(held, locale) }],
});

/** The form that puts a payment's money to other papers. */
export const movePage = (
  form: FormModel,
  payment: KeptPayment,
  asks: readonly PaperStanding[],
  { locale, currency }: StudioIdentity,
): Drawn => ({
  template: 'paper-room/payments/move',
  words: {
    title: `Put ${moneyInWords(payment.amount, locale)} from ${payment.clientName} to other papers`,
    tab: 'Put a payment to other papers',
    room: 'papers',
    crumbs: [papersCrumb, paymentsCrumb],
    form: { ...form, action: `${paymentUrl(payment.id)}/move` },
    currency,
    asks: askedOf(asks, locale),
    anyAsks: asks.length > 0,
    leave: { text: 'Leave it as it is', href: paymentUrl(payment.id) },
  },
});
