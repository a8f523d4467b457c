import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { quoteState } from '../../domain/papers/quote/quote-answer.js';
import type { ListedQuote } from '../../storage/books/papers/quote-book.js';

/** An issued quote for programs, without its costs. */
export const quoteInJson = (quote: ListedQuote, today: CalendarDate): object => ({
  id: quote.id,
  kind: 'quote',
  commissionId: quote.commissionId,
  clientId: quote.clientId,
  number: quote.number,
  version: quote.edition,
  clientName: quote.clientName,
  title: quote.title,
  issuedOn: quote.issuedOn,
  validUntil: quote.validUntil ?? null,
  issuedAt: quote.issuedAt,
  currency: quote.total.currency,
  total: quote.total,
  sha256: quote.sha256,
  state: quoteState(quote, today),
  answers: quote.answers,
});
