import type { CalendarDate } from '../../../../domain/kernel/calendar-date.js';
import type { PaperStanding } from '../../../../domain/papers/settlement/account.js';
import type { InvoiceSheet } from '../../../../printing/papers/invoice-sheet.js';
import type { FormModel } from '../../../../printing/templates/page-model.js';
import type { IssuedInvoice, ListedInvoice } from '../../../../storage/books/papers/invoice-book.js';
import type { SentPaper } from '../../../../storage/books/papers/sent-book.js';
import { freshForm } from '../../../../web/forms/form.js';
import type { PageWords } from '../../../../web/reply.js';
import { moneyInWords } from '../../../../web/words/amounts.js';
import { dateInWords, instantInWords } from '../../../../web/words/dates.js';
import { invoiceName, invoicesUrl, paperUrl } from '../invoice-words.js';

/** Everything an issued invoice's page tells. */
export type IssuedTold = {
  readonly paper: IssuedInvoice;
  /** Later papers that deduct it or mend it. */
  readonly citing: readonly ListedInvoice[];
  readonly cited: readonly ListedInvoice[];
  /** What came in on it and what is still open; none for a credit note. */
  readonly standing: PaperStanding | undefined;
  readonly sent: readonly SentPaper[];
  /** Has the house a mail address to write from? */
  readonly mayWrite: boolean;
  readonly today: CalendarDate;
  readonly locale: string;
  readonly zone: string;
};

export const sentForm = ({ paper, today }: IssuedTold): FormModel =>
  freshForm(`${paperUrl(paper.id)}/sent`, { sentOn: today, toWhom: paper.clientName, how: 'by mail' });

/** One issued invoice or credit note: its words as they went out, its files, what was sent, what came of it. */
export const issuedPage = (form: FormModel, told: IssuedTold): { template: string; words: PageWords } => {
  const { paper, citing, cited, sent, standing, locale, zone } = told;
  const url = paperUrl(paper.id);
  const { sheet } = JSON.parse(paper.document) as { sheet: InvoiceSheet };
  const isCredit = paper.kind === 'credit-note';
  const link = (other: ListedInvoice) => ({
    text: `${invoiceName(other)} of ${dateInWords(other.issuedOn)}, ${moneyInWords(other.total, locale)}`,
    href: paperUrl(other.id),
  });
  return {
    template: 'paper-room/invoices/issued',
    words: {
      title: invoiceName(paper),
      room: 'papers',
      crumbs: [{ text: 'Papers', href: '/papers' }],
      state: isCredit
        ? `${moneyInWords(paper.total, locale)} given back to ${paper.clientName}.`
        : `${moneyInWords(paper.payable, locale)} asked of ${paper.clientName}${paper.dueOn ? `, payable by ${dateInWords(paper.dueOn)}` : ''}.`,
      facts: [
        { label: 'Client', text: paper.clientName, href: `/clients/${paper.clientId}` },
        ...(paper.commissionId
          ? [
              {
                label: 'Commission',
                text: paper.title || 'its commission',
                href: `/commissions/${paper.commissionId}`,
              },
            ]
          : []),
        { label: 'Issued', text: instantInWords(paper.issuedAt, zone) },
        ...(isCredit || !standing ? [] : standingOf(standing, locale)),
      ],
      pdf: `${url}.pdf`,
      files: [
        told.mayWrite
          ? { text: 'A message with it', href: `${url}.eml` }
          : { text: 'For a message with it, give the house an address', href: '/house/identity#field-email' },
        { text: 'PDF with attached invoice data', href: `${url}.with-data.pdf` },
        { text: 'As UBL data', href: `${url}.ubl.xml` },
        { text: 'As CII data', href: `${url}.cii.xml` },
      ],
      sha256: paper.sha256,
      mayCredit: !isCredit,
      payUrl:
        isCredit || !standing || standing.open.minor <= 0
          ? ''
          : `/papers/payments/new?client=${paper.clientId}`,
      credit: { action: `${url}/credit`, text: 'Lay a credit note ready', once: freshForm('').once },
      listUrl: paper.commissionId ? invoicesUrl(paper.commissionId) : '/papers',
      cited: cited.map(link),
      citing: citing.map(link),
      sent: sent.map(({ sentOn, toWhom, how, sha256 }) => ({
        when: dateInWords(sentOn),
        text: `To ${toWhom}, ${how}.`,
        sha256,
      })),
      form: { ...form, action: `${url}/sent` },
      sheet,
    },
  };
};

const standingOf = ({ open, paid, credited }: PaperStanding, locale: string): object[] => [
  ...(paid.isZero() ? [] : [{ label: 'Paid', text: moneyInWords(paid, locale) }]),
  ...(credited.isZero() ? [] : [{ label: 'Given back', text: moneyInWords(credited, locale) }]),
  { label: 'Still to pay', text: open.isZero() ? 'nothing' : moneyInWords(open, locale) },
];

/** An issued invoice for programs. */
export const invoiceInJson = (paper: ListedInvoice): object => ({
  id: paper.id,
  kind: paper.kind,
  commissionId: paper.commissionId ?? null,
  clientId: paper.clientId,
  number: paper.number,
  clientName: paper.clientName,
  title: paper.title,
  issuedOn: paper.issuedOn,
  dueOn: paper.dueOn ?? null,
  issuedAt: paper.issuedAt,
  currency: paper.total.currency,
  tax: paper.tax,
  total: paper.total,
  payable: paper.payable,
  language: paper.language,
  sha256: paper.sha256,
  cites: paper.cites,
});
