import {
  type PaperChoices,
  type PaperLanguage,
  USUAL_PAPER_CHOICES,
} from '../../../domain/house/paper-choices.js';
import type { DepositTaking } from '../../../domain/papers/settlement/deductions.js';
import type { DepositTreatment } from '../../../domain/papers/settlement/stages.js';
import { PaperChoiceRow } from '../../rows/house/paper-choice.row.js';
import type { Reading, Writing } from '../../session.js';

/** What the house says about its papers; part of the studio, kept and changed with it under the same key. */
export const paperChoiceBook = {
  /** The usual where nothing was ever said. */
  async of(reading: Reading, studio: string): Promise<PaperChoices> {
    const row = await reading.manager.findOneBy(PaperChoiceRow, { id: studio });
    return row ? choicesOf(row) : USUAL_PAPER_CHOICES;
  },

  /** Writes what differs from what is kept; who may change it is settled by the studio's version. */
  async keep(writing: Writing, studio: string, choices: PaperChoices): Promise<void> {
    const columns = columnsOf(choices);
    const row = await writing.manager.findOneBy(PaperChoiceRow, { id: studio });
    const present = columnsOf(row ? choicesOf(row) : USUAL_PAPER_CHOICES);
    if (JSON.stringify(columns) === JSON.stringify(present)) return;
    if (row) await writing.update(PaperChoiceRow, studio, columns);
    else await writing.insert(PaperChoiceRow, { id: studio, ...columns });
  },
};

const choicesOf = (row: PaperChoiceRow): PaperChoices => ({
  invoiceSeries: row.invoice_series,
  creditSeries: row.credit_series,
  paymentDays: row.payment_days,
  treatment: row.treatment as DepositTreatment,
  taking: row.taking as DepositTaking,
  terms: row.terms,
  iban: row.iban,
  bic: row.bic,
  bank: row.bank,
  accountName: row.account_name,
  strapline: row.strapline,
  headLines: row.head_lines,
  smallPrint: row.small_print,
  language: row.language as PaperLanguage,
});

const columnsOf = (choices: PaperChoices): Omit<PaperChoiceRow, 'id' | 'version'> => ({
  invoice_series: choices.invoiceSeries,
  credit_series: choices.creditSeries,
  payment_days: choices.paymentDays,
  treatment: choices.treatment,
  taking: choices.taking,
  terms: choices.terms,
  iban: choices.iban,
  bic: choices.bic,
  bank: choices.bank,
  account_name: choices.accountName,
  strapline: choices.strapline,
  head_lines: choices.headLines,
  small_print: choices.smallPrint,
  language: choices.language,
});
