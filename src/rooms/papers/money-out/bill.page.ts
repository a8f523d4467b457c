import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { Money } from '../../../domain/kernel/money.js';
import {
  MONEY_OUT_KIND_NAMES,
  MONEY_OUT_KINDS,
  type MoneyOut,
  toPay,
} from '../../../domain/money-out/money-out.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { GarmentToCharge } from '../../../storage/books/money-out/garments-to-charge.js';
import { billSubject, type PaidOut } from '../../../storage/books/money-out/paid-out-book.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { billUrl, HERE, papersCrumb, payUrl } from './money-out.page.js';

const moneyOutCrumb = { text: 'Money out', href: HERE };

type Drawn = { template: string; words: PageWords };

const garmentOptions = (garments: readonly GarmentToCharge[]) =>
  garments.map(({ id, name, place, commissionNumber }) => ({
    value: id,
    text: `${commissionNumber} no. ${place}: ${name}`,
  }));

/** The form for a bill. */
export const billFormPage = (
  form: FormModel,
  garments: readonly GarmentToCharge[],
  { currency }: StudioIdentity,
): Drawn => ({
  template: 'paper-room/money-out/bill-form',
  words: {
    title: 'A bill that is not cloth',
    room: 'papers',
    crumbs: [papersCrumb, moneyOutCrumb],
    form: { ...form, action: HERE },
    kinds: MONEY_OUT_KIND_NAMES.map((kind) => ({
      value: kind,
      text: capitalised(MONEY_OUT_KINDS[kind].words),
    })),
    garments: garmentOptions(garments),
    currency,
    leave: { text: 'Leave without saving', href: HERE },
  },
});

/** One bill, how it stands, and the way to take it back. */
export const billPage = (
  form: FormModel,
  bill: MoneyOut,
  told: { readonly paid: PaidOut | undefined; readonly reversal: MoneyOut | undefined },
  { locale }: StudioIdentity,
): Drawn => {
  const money = (amount: Money): string => moneyInWords(amount, locale);
  const stands = !bill.of && !told.reversal;
  const state = bill.of
    ? `Takes another bill back: ${bill.reason}`
    : told.reversal
      ? `Reversed: ${told.reversal.reason}`
      : told.paid
        ? `Paid on ${dateInWords(told.paid.paidOn)}${told.paid.how ? `, ${told.paid.how}` : ''}.`
        : 'Not paid yet.';
  return {
    template: 'paper-room/money-out/bill',
    words: {
      title: `${bill.payee}, ${dateInWords(bill.on)}`,
      room: 'papers',
      crumbs: [papersCrumb, moneyOutCrumb],
      lead: `${money(toPay(bill))} for ${MONEY_OUT_KINDS[bill.kind].words}. ${state}`,
      facts: [
        { label: 'Cost', text: money(bill.amount) },
        { label: 'Tax that comes back', text: bill.tax.isZero() ? '' : money(bill.tax) },
        { label: 'What', text: bill.what },
        { label: 'Number on the paper', text: bill.paperNumber },
        bill.garmentId
          ? {
              label: 'For',
              text: bill.garmentName,
              href: `/commissions/${bill.commissionId}/garments/${bill.garmentId}`,
            }
          : { label: 'For', text: 'overhead' },
      ].filter(({ text }) => text !== ''),
      pay: stands
        ? { text: told.paid ? 'About its payment' : 'Mark as paid', href: payUrl(billSubject(bill.id)) }
        : '',
      stands,
      other: bill.of ? { text: 'The bill it takes back', href: billUrl(bill.of) } : '',
      form: { ...form, action: `${billUrl(bill.id)}/reverse` },
    },
  };
};

/** What is said of paying, and of a credit that is settled. */
const WORDS_OF_PAYING = {
  paid: { done: 'Paid', day: 'Paid on', submit: 'It is paid', undone: 'It was not paid after all' },
  settled: {
    done: 'Settled',
    day: 'Settled on',
    submit: 'It is settled',
    undone: 'It was not settled after all',
  },
};

/** The form that marks something as paid, or a credit as settled, or says that it is. */
export const payPage = (
  form: FormModel,
  about: string,
  owed: { readonly to: string; readonly amount: Money; readonly what: string },
  paid: PaidOut | undefined,
  { locale }: StudioIdentity,
): Drawn => {
  const isCredit = about.startsWith('sent-back/');
  const say = isCredit ? WORDS_OF_PAYING.settled : WORDS_OF_PAYING.paid;
  const open = isCredit ? `Credit from ${owed.to}` : `Pay ${owed.to}`;
  return {
    template: 'paper-room/money-out/pay',
    words: {
      title: paid ? `${say.done}: ${owed.to}` : open,
      room: 'papers',
      crumbs: [papersCrumb, moneyOutCrumb],
      lead: `${moneyInWords(owed.amount, locale)} ${isCredit ? 'from' : 'to'} ${owed.to}${owed.what ? `, ${owed.what}` : ''}.`,
      paid: paid ? `${say.day} ${dateInWords(paid.paidOn)}${paid.how ? `, ${paid.how}` : ''}.` : '',
      about,
      isOutwork: about.startsWith('outwork/'),
      isCredit,
      dayLabel: say.day,
      submitText: say.submit,
      form: { ...form, action: `${HERE}/pay` },
      unpay: paid ? { action: `${HERE}/unpay`, text: say.undone, once: form.once, values: { about } } : '',
      leave: { text: 'Leave without saving', href: HERE },
    },
  };
};
