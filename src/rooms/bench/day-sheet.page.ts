import { type CalendarDate, daysBetween } from '../../domain/kernel/calendar-date.js';
import { quoteState } from '../../domain/papers/quote/quote-answer.js';
import { clientBook } from '../../storage/books/client-book.js';
import { commissionBook } from '../../storage/books/commission-book.js';
import { garmentBook, type LeavingGarment } from '../../storage/books/garment-book.js';
import { type ListedQuote, quoteBook } from '../../storage/books/papers/quote-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../storage/clock.js';
import type { Reading } from '../../storage/session.js';
import type { PageWords } from '../../web/reply.js';
import { moneyInWords } from '../../web/words/amounts.js';
import { countInWords } from '../../web/words/counts.js';
import { dateInWords } from '../../web/words/dates.js';

const MOST = 20;

/** The day sheet: what leaves next and when, and which quotes wait for an answer. */
export const daySheet = async (reading: Reading, clock: Clock): Promise<PageWords> => {
  const { identity } = await studioBook.the(reading);
  const today = todayIn(clock, identity.zone);
  const leaving = await garmentBook.leaving(reading, MOST);
  const quotes = (await quoteBook.find(reading, '', MOST)).items.filter(
    (quote) => quoteState(quote, today) === 'open',
  );
  const empty = leaving.length === 0 && (await commissionBook.find(reading, '', 1)).items.length === 0;
  return {
    title: 'Bench',
    room: 'bench',
    today: dateInWords(today),
    empty,
    first:
      (await clientBook.count(reading)) > 0
        ? { text: 'Open the first commission', href: '/commissions/new' }
        : { text: 'Add the first client', href: '/clients/new' },
    anyLeaving: leaving.length > 0,
    leaving: leavingTable(leaving, today),
    anyQuotes: quotes.length > 0,
    quotes: quotesTable(quotes, today, identity.locale),
  };
};

const leavingTable = (garments: readonly LeavingGarment[], today: CalendarDate): object => ({
  caption: 'What leaves next',
  columns: [{ text: 'Garment' }, { text: 'For' }, { text: 'Due' }, { text: 'Left' }],
  rows: garments.map((garment) => ({
    cells: [
      {
        text: garment.name,
        href: `/commissions/${garment.commissionId}/garments/${garment.id}`,
        note: `${garment.commissionNumber}, no. ${garment.place}`,
      },
      { text: garment.wearerName },
      { text: dateInWords(garment.dueOn) },
      { text: daysInWords(daysBetween(today, garment.dueOn)) },
    ],
  })),
});

const quotesTable = (quotes: readonly ListedQuote[], today: CalendarDate, locale: string): object => ({
  caption: 'Quotes that wait for an answer',
  columns: [{ text: 'Quote' }, { text: 'For' }, { text: 'Valid until' }, { text: 'Total', figure: true }],
  rows: quotes.map((quote) => ({
    cells: [
      { text: quote.number, href: `/papers/${quote.id}`, note: quote.title },
      { text: quote.clientName },
      {
        text: quote.validUntil ? dateInWords(quote.validUntil) : 'no date',
        ...(quote.validUntil ? { note: daysInWords(daysBetween(today, quote.validUntil)) } : {}),
      },
      { text: moneyInWords(quote.total, locale), figure: true },
    ],
  })),
});

/** Days to go, in words: `in 12 days`, `today`, `3 days ago`. */
export const daysInWords = (days: number): string => {
  if (days === 0) return 'today';
  return days > 0 ? `in ${countInWords(days, 'day')}` : `${countInWords(-days, 'day')} ago`;
};
