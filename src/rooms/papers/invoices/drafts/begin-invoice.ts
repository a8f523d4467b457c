import type { Commission } from '../../../../domain/commissions/commission.js';
import { Decimal } from '../../../../domain/kernel/decimal.js';
import { Conflict } from '../../../../domain/kernel/errors.js';
import type { Share } from '../../../../domain/kernel/share.js';
import type { AgreedWork } from '../../../../domain/papers/invoice/agreed-work.js';
import {
  layCreditReady,
  layDepositReady,
  layFinalReady,
  layPartReady,
  layStageReady,
} from '../../../../domain/papers/invoice/draft-invoice.js';
import { type EarlierPaper, leftOf, standing } from '../../../../domain/papers/invoice/earlier-paper.js';
import type { InvoiceChoices } from '../../../../domain/papers/invoice/invoice-choices.js';
import { invoiceDraftWords } from '../../../../printing/papers/words/invoice-words.js';
import { clientBook } from '../../../../storage/books/client-book.js';
import { commissionBook } from '../../../../storage/books/commission-book.js';
import { billableOf, onAccountOf } from '../../../../storage/books/papers/billable.js';
import { invoiceBook } from '../../../../storage/books/papers/invoice-book.js';
import {
  invoiceDraftBook,
  type KeptInvoiceDraft,
} from '../../../../storage/books/papers/invoice-draft-book.js';
import { earlierOf } from '../../../../storage/books/papers/invoice-text.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import type { Reading, Visit } from '../../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { languageOnPaper } from '../../../../web/papers/paper-languages.js';
import { type Agreed, agreedOf } from '../agreed-of.js';
import { handedOverOn } from './handed-over-on.js';

/** What is to be laid ready. */
export const READY = ['deposit', 'part', 'stage', 'final'] as const;
export type InvoiceAsked = {
  readonly what: (typeof READY)[number];
  /** Of a part invoice. */
  readonly garments: readonly string[];
  /** Of a stage. */
  readonly share?: Share | undefined;
};

export const invoiceSubject = (commissionId: string | undefined, id: string): string =>
  commissionId ? `commission/${commissionId}/invoice/${id}` : `paper/${id}`;

/** Everything from which a commission's next invoice is laid ready. */
export type InvoiceGroundwork = {
  readonly commission: Commission;
  readonly agreed: Agreed;
  readonly earlier: readonly EarlierPaper[];
};

export const groundworkOf = async (reading: Reading, commissionId: string): Promise<InvoiceGroundwork> => {
  const studio = await studioBook.the(reading);
  const commission = await commissionBook.one(reading, commissionId);
  return {
    commission,
    agreed: await agreedOf(reading, studio, commission),
    earlier: earlierOf(await invoiceBook.wholeOfCommission(reading, commissionId)),
  };
};

/** The last invoice of a commission, when it went out already. */
export const lastInvoice = (earlier: readonly EarlierPaper[]): EarlierPaper | undefined =>
  standing(earlier).papers.find(({ paper }) => paper.kind === 'final-invoice' || paper.kind === 'invoice');

const lay = async (
  reading: Reading,
  { commission, agreed, earlier }: InvoiceGroundwork,
  asked: InvoiceAsked,
): Promise<InvoiceChoices> => {
  const { work } = agreed;
  const studio = await studioBook.the(reading);
  const settings = studio.papers;
  const payer = await clientBook.one(reading, commission.payerId);
  const words = invoiceDraftWords(languageOnPaper(payer, studio));
  const present = standing(earlier);
  const last = lastInvoice(earlier);
  if (last)
    throw new Conflict(
      `The final invoice of this commission went out: ${last.paper['BT-1'] ?? ''}. What is to change is mended by a credit note.`,
      'already-final',
    );
  const extras = await billableOf(reading, commission.id, work.pricesInclude);
  switch (asked.what) {
    case 'deposit': {
      if (settings.treatment === 'payment-on-account')
        throw new Conflict(
          'The house takes deposits as payments on account: put the payment down when it comes, and it comes off the invoice.',
          'deposit-on-account',
        );
      const before = present.papers.find(({ paper }) => paper.kind === 'deposit-invoice');
      if (before)
        throw new Conflict(`The deposit was invoiced: ${before.paper['BT-1'] ?? ''}.`, 'already-invoiced');
      return layDepositReady(work, words);
    }
    case 'part':
      return layPartReady(
        work,
        asked.garments,
        extras.filter(({ number }) => !present.extras.has(`extra-${number}`)),
        words,
      );
    case 'stage':
      return layStageReady(work, asked.share ?? new Decimal(0), words);
    case 'final':
      return layFinalReady(
        work,
        extras,
        present.papers.length > 0,
        settings.treatment === 'payment-on-account'
          ? await onAccountOf(reading, commission.payerId, commission.id)
          : undefined,
        words,
      );
  }
};

const WORDS = {
  deposit: 'a deposit invoice',
  part: 'a part invoice',
  stage: 'a stage invoice',
  final: 'the final invoice',
} as const;

/** Lays an invoice of a commission ready, out of what was agreed. @throws Conflict, Invalid when it cannot be */
export const beginInvoice = (
  unit: UnitOfWork,
  visit: Visit,
  commissionId: string,
  asked: InvoiceAsked,
): Promise<Done<KeptInvoiceDraft>> =>
  unit.write(visit, async (writing) => {
    const ground = await groundworkOf(writing, commissionId);
    const { commission, agreed } = ground;
    if (agreed.work.pieces.length === 0)
      throw new Conflict('There is nothing to invoice yet: the commission has no garment.', 'no-garment');
    const choices = await lay(writing, ground, asked);
    const garments = new Set(choices.lines.flatMap(({ garment }) => garment || []));
    const gone = asked.what === 'part' || asked.what === 'final';
    const supplied = gone ? await handedOverOn(writing, [...garments]) : undefined;
    const draft = await invoiceDraftBook.begin(writing, {
      commissionId,
      clientId: commission.payerId,
      credits: undefined,
      quotes: quotesOf(agreed.work),
      choices: { ...choices, supplied, orderNumber: commission.orderNumber },
    });
    writing.says(
      `Laid ${WORDS[asked.what]} ready for ${commission.number}`,
      invoiceSubject(commissionId, draft.id),
    );
    return draft;
  });

const quotesOf = ({ quotes }: AgreedWork): readonly string[] => quotes;

/** Lays a credit note on an issued invoice ready. @throws Conflict when nothing is left of it */
export const beginCredit = (
  unit: UnitOfWork,
  visit: Visit,
  invoiceId: string,
): Promise<Done<KeptInvoiceDraft>> =>
  unit.write(visit, async (writing) => {
    const invoice = await invoiceBook.one(writing, invoiceId);
    if (invoice.kind === 'credit-note' || invoice.kind === 'receipt')
      throw new Conflict('Only an invoice can be given back by a credit note.', 'no-invoice');
    const papers = invoice.commissionId
      ? await invoiceBook.wholeOfCommission(writing, invoice.commissionId)
      : [invoice];
    const earlier = earlierOf(papers).find(({ id }) => id === invoiceId);
    if (earlier && earlier.credits.length > 0 && leftOf(earlier).minor <= 0)
      throw new Conflict(`${invoice.number} was given back already.`, 'already-credited');
    const draft = await invoiceDraftBook.begin(writing, {
      commissionId: invoice.commissionId,
      clientId: invoice.clientId,
      credits: invoiceId,
      quotes: [],
      choices: layCreditReady(invoice.total.currency),
    });
    writing.says(
      `Laid a credit note on ${invoice.number} ready`,
      invoiceSubject(invoice.commissionId, draft.id),
    );
    return draft;
  });
