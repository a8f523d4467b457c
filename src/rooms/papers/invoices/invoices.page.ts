import type { PaperChoices } from '../../../domain/house/paper-choices.js';
import { standing } from '../../../domain/papers/invoice/earlier-paper.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { ListedInvoice } from '../../../storage/books/papers/invoice-book.js';
import type { KeptInvoiceDraft } from '../../../storage/books/papers/invoice-draft-book.js';
import { freshForm } from '../../../web/forms/form.js';
import type { PageWords } from '../../../web/reply.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { type InvoiceGroundwork, lastInvoice } from './drafts/begin-invoice.js';
import { draftName, invoiceDraftUrl, invoicesUrl, KIND_WORDS, paperUrl } from './invoice-words.js';

/** Everything a commission's page of invoices tells. */
export type InvoicesTold = InvoiceGroundwork & {
  readonly issued: readonly ListedInvoice[];
  readonly drafts: readonly KeptInvoiceDraft[];
  readonly settings: PaperChoices;
  readonly locale: string;
};

const BY = {
  accepted: 'What is asked for is what was accepted.',
  offered:
    'No quote has been accepted yet. What is laid ready is what was offered; write the answer down first.',
  nothing:
    'There is no quote. The garments are laid ready by name, at the price set by hand where there is one.',
} as const;

export const readyForm = (): FormModel => freshForm('', { what: 'part' });

/** Is there a deposit to be invoiced: agreed, not asked for yet, and not taken as a payment on account? */
export const mayAskDeposit = ({
  agreed,
  earlier,
  settings,
}: Pick<InvoicesTold, 'agreed' | 'earlier' | 'settings'>): boolean =>
  settings.treatment !== 'payment-on-account' &&
  lastInvoice(earlier) === undefined &&
  !standing(earlier).papers.some(({ paper }) => paper.kind === 'deposit-invoice') &&
  agreed.work.pieces.some(({ deposit }) => deposit.minor > 0);

/** The invoices of one commission: what can be laid ready, what is in the making, what went out. */
export const invoicesPage = (form: FormModel, told: InvoicesTold): { template: string; words: PageWords } => {
  const { commission, agreed, earlier, issued, drafts, settings, locale } = told;
  const url = invoicesUrl(commission.id);
  const present = standing(earlier);
  const last = lastInvoice(earlier);
  const onAccount = settings.treatment === 'payment-on-account';
  const garments = agreed.work.pieces.filter(({ ref, garment }) => ref === garment);
  const press = (what: string, text: string) => ({
    action: url,
    text,
    once: freshForm('').once,
    values: { what },
  });
  return {
    template: 'paper-room/invoices/list',
    words: {
      title: `Invoices of ${commission.number}`,
      room: 'papers',
      crumbs: [
        { text: 'Commissions', href: '/commissions' },
        { text: commission.number, href: `/commissions/${commission.id}` },
      ],
      lead: commission.title,
      form: { ...form, action: url },
      by: BY[agreed.by],
      nothing: garments.length === 0,
      garmentsUrl: `/commissions/${commission.id}/garments/new`,
      isOver: last !== undefined,
      over: last
        ? `${KIND_WORDS[last.paper.kind as 'invoice']} ${last.paper['BT-1'] ?? ''} was the last. What is to change is mended by a credit note.`
        : '',
      mayDeposit: mayAskDeposit(told),
      deposit: press('deposit', 'Lay a deposit invoice ready'),
      depositWords: onAccount
        ? 'Deposits are taken as payments on account: put the payment down when it comes, and it comes off the last invoice.'
        : '',
      garments: garments
        .filter(({ ref }) => !present.invoiced.has(ref))
        .map(({ ref, name, price }) => ({
          name: `garments.${ref}`,
          label: `${name}, ${amountInWords(price, locale)}`,
        })),
      isAllAsked:
        present.papers.length > 0 &&
        garments.length > 0 &&
        garments.every(({ ref }) => present.invoiced.has(ref)),
      mayPart: garments.some(({ ref }) => !present.invoiced.has(ref)),
      final: press(
        'final',
        present.papers.length > 0 ? 'Lay the final invoice ready' : 'Lay one invoice for everything ready',
      ),
      anyDrafts: drafts.length > 0,
      drafts: {
        caption: 'In the making',
        columns: [{ text: 'Draft' }, { text: 'Next' }],
        rows: drafts.map(({ id, choices }) => ({
          cells: [
            { text: draftName(choices.kind), href: invoiceDraftUrl(commission.id, id) },
            { text: 'Check and issue', href: `${invoiceDraftUrl(commission.id, id)}/check` },
          ],
        })),
      },
      anyIssued: issued.length > 0,
      issued: {
        caption: 'Issued',
        columns: [
          { text: 'Number' },
          { text: 'Date' },
          { text: 'What' },
          { text: 'Due' },
          { text: 'With tax', figure: true },
        ],
        rows: issued.map((paper) => ({
          cells: [
            { text: paper.number, href: paperUrl(paper.id) },
            { text: dateInWords(paper.issuedOn) },
            { text: KIND_WORDS[paper.kind] },
            { text: paper.dueOn ? dateInWords(paper.dueOn) : '' },
            {
              text: moneyInWords(paper.kind === 'credit-note' ? paper.total.negated() : paper.total, locale),
            },
          ],
        })),
      },
    },
  };
};
