import type { Commission } from '../../../domain/commissions/commission.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { ListedQuote } from '../../../storage/books/papers/quote-book.js';
import type { KeptDraft } from '../../../storage/books/papers/quote-draft-book.js';
import { freshForm } from '../../../web/forms/form.js';
import { quoteStateInWords } from '../../../web/papers/quote-state-words.js';
import type { PageWords } from '../../../web/reply.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { commissionCrumbs } from '../commission.page.js';

export const quotesUrl = (commissionId: string): string => `/commissions/${commissionId}/quotes`;
export const paperUrl = (id: string): string => `/papers/${id}`;

/** The quotes of one commission: what is in the making, what went out, and how each stands. */
export const quotesPage = (
  commission: Commission,
  drafts: readonly KeptDraft[],
  issued: readonly ListedQuote[],
  { today, locale, garments }: { today: CalendarDate; locale: string; garments: number },
): PageWords => {
  const url = quotesUrl(commission.id);
  return {
    title: `Quotes of ${commission.number}`,
    room: 'commissions',
    crumbs: commissionCrumbs(commission),
    lead: commission.title,
    noGarment: garments === 0,
    garmentsUrl: `/commissions/${commission.id}/garments/new`,
    none: drafts.length === 0 && issued.length === 0,
    begin: { action: url, text: 'Make a quote', once: freshForm('').once },
    beginAnother: { action: url, text: 'Make another quote', once: freshForm('').once },
    anyDrafts: drafts.length > 0,
    drafts: {
      caption: 'In the making',
      columns: [{ text: 'Draft' }, { text: 'Valid until' }, { text: 'Next' }],
      rows: drafts.map((draft) => ({
        cells: [
          {
            text: draft.number ? `Next version of ${draft.number}` : 'A quote, not yet numbered',
            href: `${url}/drafts/${draft.id}`,
            ...(draft.pricesOf ? { note: 'confirms what was accepted' } : {}),
          },
          { text: draft.choices.validUntil ? dateInWords(draft.choices.validUntil) : 'not said' },
          { text: 'Check and issue', href: `${url}/drafts/${draft.id}/check` },
        ],
      })),
    },
    anyIssued: issued.length > 0,
    issued: {
      caption: 'Issued',
      columns: [
        { text: 'Number' },
        { text: 'Date' },
        { text: 'How it stands' },
        { text: 'With tax', figure: true },
      ],
      rows: issued.map((quote) => ({
        cells: [
          { text: quote.number, href: paperUrl(quote.id), note: `version ${quote.edition}` },
          { text: dateInWords(quote.issuedOn) },
          { text: quoteStateInWords(quote, today) },
          { text: moneyInWords(quote.total, locale) },
        ],
      })),
    },
  };
};
