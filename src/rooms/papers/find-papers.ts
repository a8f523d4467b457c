import type { PageOf } from '../../storage/books/client-book.js';
import { invoiceBook, type ListedInvoice } from '../../storage/books/papers/invoice-book.js';
import { type ListedQuote, quoteBook } from '../../storage/books/papers/quote-book.js';
import type { Reading } from '../../storage/session.js';

/** One paper that went out, of whichever kind. */
export type ListedPaper =
  | { readonly is: 'quote'; readonly id: string; readonly quote: ListedQuote }
  | { readonly is: 'invoice'; readonly id: string; readonly invoice: ListedInvoice };

/**
 * Every paper that went out, newest first: keys grow with time, so the two books are read to the same length and laid into
 * one another.
 *
 * @param after the last key of the page before
 */
export const findPapers = async (
  reading: Reading,
  asked: string,
  limit: number,
  after: string,
): Promise<PageOf<ListedPaper>> => {
  const quotes = await quoteBook.find(reading, asked, limit, after);
  const invoices = await invoiceBook.find(reading, asked, limit, after);
  const all: ListedPaper[] = [
    ...quotes.items.map((quote): ListedPaper => ({ is: 'quote', id: quote.id, quote })),
    ...invoices.items.map((invoice): ListedPaper => ({ is: 'invoice', id: invoice.id, invoice })),
  ].sort((a, b) => (a.id < b.id ? 1 : -1));
  const items = all.slice(0, limit);
  const more = all.length > limit || quotes.next !== undefined || invoices.next !== undefined;
  return { items, next: more ? items.at(-1)?.id : undefined };
};
