import type { DepositTaking } from '../papers/settlement/deductions.js';
import type { DepositTreatment } from '../papers/settlement/stages.js';

/** The languages the papers speak. Pages stay in English. */
export const PAPER_LANGUAGES = ['en', 'fr', 'de'] as const;
export type PaperLanguage = (typeof PAPER_LANGUAGES)[number];

/** How the house numbers its invoices, is paid, and words what stands on every paper. */
export type PaperChoices = {
  readonly invoiceSeries: string;
  readonly creditSeries: string;
  /** Days from the date of an invoice to the day it is due. */
  readonly paymentDays: number;
  readonly treatment: DepositTreatment;
  /** How a deposit goes over the garments as they leave. */
  readonly taking: DepositTaking;
  /** Terms that stand on every invoice, one a line. */
  readonly terms: string;
  /** Without blanks, in capitals; '' for none. */
  readonly iban: string;
  readonly bic: string;
  /** The name of the bank. */
  readonly bank: string;
  readonly accountName: string;
  /** One line under the name on the letterhead. */
  readonly strapline: string;
  /** Further lines of the letterhead, such as registration numbers, one a line. */
  readonly headLines: string;
  /** Stands small at the end of every paper, one a line. */
  readonly smallPrint: string;
  /** In what language papers are written, unless the client reads another. */
  readonly language: PaperLanguage;
};

/** A house that has said nothing yet about its papers. Fourteen days is common practice, no source. */
export const USUAL_PAPER_CHOICES: PaperChoices = {
  invoiceSeries: 'I-{year}-{000}',
  creditSeries: 'CN-{year}-{000}',
  paymentDays: 14,
  treatment: 'tax-due-on-deposits',
  taking: 'shared',
  terms: '',
  iban: '',
  bic: '',
  bank: '',
  accountName: '',
  strapline: '',
  headLines: '',
  smallPrint: '',
  language: 'en',
};

/**
 * In which language a client's papers are written.
 *
 * @param client '' where the client takes the house's own
 * @see test/domain/house/paper-choices.test.ts
 */
export const paperLanguageOf = (
  house: Pick<PaperChoices, 'language'>,
  client: PaperLanguage | '',
): PaperLanguage => client || house.language;
