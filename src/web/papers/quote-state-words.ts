import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { quoteState, standingAnswer } from '../../domain/papers/quote/quote-answer.js';
import type { ListedQuote } from '../../storage/books/papers/quote-book.js';
import { dateInWords } from '../words/dates.js';

/** How a version of a quote stands on a day: `waits for an answer, valid until 1 April 2026`. */
export const quoteStateInWords = (quote: ListedQuote, today: CalendarDate): string => {
  const answer = standingAnswer(quote.answers);
  const by = answer ? `on ${dateInWords(answer.answeredOn)} by ${answer.byWhom}` : '';
  switch (quoteState(quote, today)) {
    case 'accepted':
      return `accepted ${by}`;
    case 'accepted-in-part':
      return `accepted in part ${by}`;
    case 'declined':
      return `declined ${by}`;
    case 'superseded':
      return 'a later version took its place';
    case 'lapsed':
      return `lapsed: it was valid until ${dateInWords(quote.validUntil ?? today)}`;
    case 'open':
      return quote.validUntil
        ? `waits for an answer, valid until ${dateInWords(quote.validUntil)}`
        : 'waits for an answer';
  }
};

/** A number with its version where it has more than one to tell apart: `Q-2026-031, version 2`. */
export const quoteName = ({ number, edition }: Pick<ListedQuote, 'number' | 'edition'>): string =>
  `${number}, version ${edition}`;
