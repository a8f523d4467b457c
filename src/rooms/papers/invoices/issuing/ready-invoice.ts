import type { InvoiceSheet } from '../../../../printing/papers/invoice-sheet.js';
import type { InvoiceDocument } from '../../../../storage/books/papers/invoice-text.js';
import { documentText } from '../../../../storage/books/papers/quote-text.js';
import type { NextNumber } from '../../../../storage/issuing/next-number.js';
import { keptSheet } from '../../../../web/papers/house-on-paper.js';
import type { InvoiceOfDraft } from '../invoice-of-draft.js';
import { movedInWords } from '../moved-in-words.js';

/** An invoice ready to be printed: its words with the number it would get. */
export type Ready = {
  readonly told: InvoiceOfDraft;
  readonly sheet: InvoiceSheet;
  readonly next: NextNumber;
  /** When it was read, see `moment` of the read side. */
  readonly moment?: number | undefined;
};

/** What is kept of an invoice besides its print, as text. */
export const documentOf = ({ told, sheet }: Ready): string => {
  const { kept, hand } = told;
  const document: InvoiceDocument = {
    choices: kept.choices,
    paper: hand.paper,
    deductions: hand.deductions,
    sentences: movedInWords(hand.moved, told.language),
    quotes: kept.quotes,
    sheet: keptSheet(sheet),
  };
  return documentText(document);
};
