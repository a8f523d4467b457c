import type { Client } from '../../../domain/clients/client.js';
import type { Commission } from '../../../domain/commissions/commission.js';
import type { PaperChoices } from '../../../domain/house/paper-choices.js';
import type { Studio } from '../../../domain/house/studio.js';
import { addDays, type CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { InvoiceChoices } from '../../../domain/papers/invoice/invoice-choices.js';
import { type InvoiceInHand, invoiceInHand } from '../../../domain/papers/invoice/invoice-paper.js';
import type { PaymentTerms } from '../../../domain/papers/model/paper.js';
import { creditorReference } from '../../../domain/papers/payment/creditor-reference.js';
import { heldFor } from '../../../domain/papers/settlement/allocating.js';
import { deductionWords } from '../../../printing/papers/words/invoice-words.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { markBook, type StudioMark } from '../../../storage/books/house/mark-book.js';
import { clientAccountBook } from '../../../storage/books/papers/client-account-book.js';
import { invoiceBook } from '../../../storage/books/papers/invoice-book.js';
import type { KeptInvoiceDraft } from '../../../storage/books/papers/invoice-draft-book.js';
import { earlierOf } from '../../../storage/books/papers/invoice-text.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import { besides, type Reading } from '../../../storage/session.js';
import { buyerOf, reasonOnPaper, sellerOf } from '../../../web/papers/house-on-paper.js';
import { languageOnPaper } from '../../../web/papers/paper-languages.js';
import { heldFindings, taxMoved } from './draft-findings.js';

/** A draft as it would go out now, with everything its words are taken from. */
export type InvoiceOfDraft = {
  readonly kept: KeptInvoiceDraft;
  readonly studio: Studio;
  readonly settings: PaperChoices;
  /** Who pays. */
  readonly client: Client;
  readonly commission: Commission | undefined;
  readonly today: CalendarDate;
  readonly language: string;
  /** The picture on the letterhead. */
  readonly mark: StudioMark | undefined;
  readonly hand: InvoiceInHand;
};

/** A structured reference out of the paper's number where its letters and digits fit into one, else the number itself. */
const referenceFor = (number: string): string =>
  /^[A-Z0-9]{1,21}$/.test(number.toUpperCase().replace(/[\s\-/._#]/g, ''))
    ? creditorReference(number)
    : number;

/** How the house is paid: by credit transfer, where it has said into which account. UNTDID 4461: 58 is the SEPA one. */
const paymentOf = (settings: PaperChoices, studio: Studio, number: string): PaymentTerms | undefined => {
  if (!settings.iban) return undefined;
  return {
    'BT-81': studio.identity.currency === 'EUR' ? '58' : '30',
    'BT-84': settings.iban,
    'BT-85': settings.accountName || studio.identity.name,
    ...(settings.bic ? { 'BT-86': settings.bic } : {}),
    ...(number ? { 'BT-83': referenceFor(number) } : {}),
  };
};

/** Reasons for charging no tax are said in the language of the paper where they are the program's own. */
const inLanguage = (choices: InvoiceChoices, language: string): InvoiceChoices => ({
  ...choices,
  taxReasons: Object.fromEntries(
    Object.entries(choices.taxReasons).map(([category, reason]) => [
      category,
      reasonOnPaper(reason, language),
    ]),
  ),
});

/**
 * Works a draft out as the house, the client and the earlier papers stand now.
 *
 * @param number the number it would get; none for a draft
 */
export const invoiceOfDraft = async (
  reading: Reading,
  clock: Clock,
  kept: KeptInvoiceDraft,
  number?: string,
): Promise<InvoiceOfDraft> => {
  const studio = await studioBook.the(reading);
  const settings = studio.papers;
  const { commissionId } = kept;
  const [client, commission, papers, { account }, mark] = await besides(
    reading,
    () => clientBook.one(reading, kept.clientId),
    async () => (commissionId ? commissionBook.one(reading, commissionId) : undefined),
    async () => (commissionId ? invoiceBook.wholeOfCommission(reading, commissionId) : []),
    () => clientAccountBook.of(reading, kept.clientId),
    () => markBook.maybe(reading),
  );
  const today = todayIn(clock, studio.identity.zone);
  const earlier = earlierOf(papers);
  const credited = earlier.find(({ id }) => id === kept.credits);
  const isCredit = kept.choices.kind === 'credit-note';
  const language = languageOnPaper(client, studio);
  const choices = inLanguage(kept.choices, language);
  const payment = isCredit ? undefined : paymentOf(settings, studio, number ?? '');
  const hand = invoiceInHand(choices, {
    head: {
      ...(number === undefined ? {} : { 'BT-1': number }),
      'BT-2': today,
      ...(isCredit || choices.due ? {} : { 'BT-9': addDays(today, settings.paymentDays) }),
      // Money asked for before the work: the day of the paper is the day tax falls due on.
      ...(choices.kind === 'deposit-invoice' ? { 'BT-7': today } : {}),
      'BG-4': sellerOf(studio),
      'BG-7': buyerOf(client),
      ...(payment ? { 'BG-16': payment } : {}),
    },
    earlier,
    ...(credited ? { credited } : {}),
    taking: settings.taking,
    words: deductionWords(language),
  });
  return {
    kept,
    studio,
    settings,
    client,
    commission,
    today,
    language,
    mark,
    hand: {
      ...hand,
      findings: [
        ...hand.findings,
        ...taxMoved(choices, studio),
        ...heldFindings(choices, heldFor(account, kept.commissionId), settings, studio.identity.locale),
      ],
    },
  };
};
