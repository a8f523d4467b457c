import { z } from 'zod';
import { isBic, plainBic, readBic } from '../../../domain/papers/payment/bic.js';
import { ibanInFours, isIban, plainIban, readIban } from '../../../domain/papers/payment/iban.js';
import { oneOf, optionalLine, optionalLines, whole } from '../../../web/fields/fields.js';
import { TAX_CAUTION } from '../choices.js';
import type { Section } from './section.js';
import { heldTo, seriesField } from './series-field.js';

const TREATMENTS = {
  'tax-due-on-deposits': 'tax falls due on the deposit',
  'payment-on-account': 'payment on account',
};
const TAKINGS = {
  shared: 'shared over the garments by price',
  first: 'on the first garments until it is used up',
  last: 'held to the last garments',
};

/** Two patterns that differ only in how wide the counter is would meet at the thousandth paper. */
const bare = (pattern: string): string => pattern.replace(/\{0+\}/, '{0}').toLocaleLowerCase('en');

const optionalBy = (rule: (typed: string) => unknown) =>
  optionalLine(60).superRefine((typed, ctx) => {
    if (typed !== '') heldTo(rule)(typed, ctx);
  });

/** How invoices and credit notes are numbered, when they are due, how a deposit is taken, and into which account they are paid. */
export const invoices: Section = {
  path: 'invoices',
  folder: 'papers',
  title: 'Invoices and payment',
  summary: ({ papers }) =>
    `${papers.invoiceSeries}; due in ${papers.paymentDays} days; ${papers.iban ? ibanInFours(papers.iban) : 'no account yet'}`,
  values: ({ papers }, show) => ({
    invoiceSeries: papers.invoiceSeries,
    creditSeries: papers.creditSeries,
    paymentDays: show.number(papers.paymentDays),
    treatment: papers.treatment,
    taking: papers.taking,
    accountName: papers.accountName,
    iban: ibanInFours(papers.iban),
    bic: papers.bic,
    bank: papers.bank,
    terms: papers.terms,
  }),
  schema: (_, studio) =>
    z
      .strictObject({
        invoiceSeries: seriesField('I-{year}-{000}'),
        creditSeries: seriesField('CN-{year}-{000}'),
        paymentDays: whole(0, 365, 'Say in how many days an invoice is due; 0 for at once.'),
        treatment: oneOf(['tax-due-on-deposits', 'payment-on-account']),
        taking: oneOf(['shared', 'first', 'last']),
        accountName: optionalLine(200),
        iban: optionalBy(readIban),
        bic: optionalBy(readBic),
        bank: optionalLine(200),
        terms: optionalLines(4000),
      })
      .refine((said) => bare(said.invoiceSeries) !== bare(said.creditSeries), {
        path: ['creditSeries'],
        message: 'Credit notes need numbers of their own, or two papers could share one.',
      })
      .refine((said) => said.bic === '' || said.iban !== '' || !isBic(said.bic), {
        path: ['iban'],
        message: 'A bank’s code alone pays nobody: give the account too.',
      })
      .transform(({ iban, bic, ...said }) => ({
        ...studio,
        papers: {
          ...studio.papers,
          ...said,
          iban: isIban(iban) ? plainIban(iban) : '',
          bic: isBic(bic) ? plainBic(bic) : '',
        },
      })),
  words: () => ({
    treatments: Object.entries(TREATMENTS).map(([value, text]) => ({ value, text })),
    takings: Object.entries(TAKINGS).map(([value, text]) => ({ value, text })),
    caution: TAX_CAUTION,
  }),
};
