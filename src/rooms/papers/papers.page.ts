import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { quoteState, standingAnswer } from '../../domain/papers/quote/quote-answer.js';
import type { QuoteSheet } from '../../printing/papers/quote-sheet.js';
import type { PageOf } from '../../storage/books/client-book.js';
import type { IssuedQuote } from '../../storage/books/papers/quote-book.js';
import { quoteName, quoteStateInWords } from '../../web/papers/quote-state-words.js';
import type { PageWords } from '../../web/reply.js';
import { moneyInWords } from '../../web/words/amounts.js';
import { dateInWords, instantInWords } from '../../web/words/dates.js';
import type { Held } from './accounts/account-desk.js';
import type { ListedPaper } from './find-papers.js';
import { KIND_WORDS } from './invoices/invoice-words.js';

const papersCrumb = { text: 'Papers', href: '/papers' };

/** How the house tells days and amounts. */
export type Manner = { readonly today: CalendarDate; readonly locale: string; readonly zone: string };

/** Every paper that went out, newest first, and what was looked for. */
export const papersPage = (
  found: PageOf<ListedPaper>,
  asked: string,
  after: string,
  { today, locale }: Manner,
  held?: Held,
): PageWords => {
  const query = asked ? `q=${encodeURIComponent(asked)}&` : '';
  return {
    title: asked ? `Papers: ${asked}` : 'Papers',
    room: 'papers',
    asked,
    any: found.items.length > 0,
    noneYet: found.items.length === 0 && !asked && !after,
    anyFigures: held !== undefined,
    figures: held
      ? [
          { label: 'Owed by clients', text: moneyInWords(held.owed, locale), href: '/papers/owed' },
          { label: 'Deposits held for garments not handed over', text: moneyInWords(held.deposits, locale) },
          { label: 'Other money held for clients', text: moneyInWords(held.credit, locale) },
        ]
      : [],
    found: {
      caption: 'Papers, newest first',
      quietCaption: true,
      columns: [
        { text: 'Number' },
        { text: 'Date', short: true },
        { text: 'To' },
        { text: 'How it stands' },
        { text: 'With tax', figure: true },
      ],
      rows: found.items.map((paper) => ({ cells: cellsOf(paper, today, locale) })),
    },
    pager: {
      label: 'Papers',
      ...(after ? { earlier: { text: 'From the newest', href: `/papers?${query}` } } : {}),
      ...(found.next ? { later: { text: 'Older papers', href: `/papers?${query}after=${found.next}` } } : {}),
    },
  };
};

const cellsOf = (paper: ListedPaper, today: CalendarDate, locale: string): object[] => {
  if (paper.is === 'quote') {
    const { quote } = paper;
    return [
      { text: quote.number, href: `/papers/${quote.id}`, note: `version ${quote.edition}` },
      { text: dateInWords(quote.issuedOn) },
      { text: quote.clientName, note: quote.title },
      { text: quoteStateInWords(quote, today) },
      { text: moneyInWords(quote.total, locale) },
    ];
  }
  const { invoice } = paper;
  const isCredit = invoice.kind === 'credit-note';
  return [
    { text: invoice.number, href: `/papers/${invoice.id}`, note: KIND_WORDS[invoice.kind].toLowerCase() },
    { text: dateInWords(invoice.issuedOn) },
    { text: invoice.clientName, note: invoice.title },
    { text: invoice.dueOn && !isCredit ? `payable by ${dateInWords(invoice.dueOn)}` : '' },
    { text: moneyInWords(isCredit ? invoice.total.negated() : invoice.total, locale) },
  ];
};

type Pair = { label: string; text: string };
type Told = {
  told: { rates: Pair[]; pricing: Pair[] };
  garments: {
    ref: string;
    name: string;
    told: { lead: string; hours: Pair[]; left: Pair[]; cost: object[]; price: object[] };
  }[];
};

/** One quote: its words as they went out, how it stands, and, for the studio alone, what it rested on. */
export const paperPage = (
  quote: IssuedQuote,
  { today, locale, zone }: Manner,
  mayAskDeposit: boolean,
): PageWords => {
  const state = quoteState(quote, today);
  const { sheet } = JSON.parse(quote.document) as { sheet: QuoteSheet };
  const costs = JSON.parse(quote.costs) as Told;
  const commission = `/commissions/${quote.commissionId}`;
  const url = `${commission}/quotes/${quote.id}`;
  return {
    title: quoteName(quote),
    room: 'papers',
    crumbs: [papersCrumb],
    state: `${moneyInWords(quote.total, locale)} to ${quote.clientName}: ${quoteStateInWords(quote, today)}.`,
    facts: [
      { label: 'Client', text: quote.clientName, href: `/clients/${quote.clientId}` },
      { label: 'Commission', text: quote.title, href: commission },
      { label: 'Issued', text: instantInWords(quote.issuedAt, zone) },
    ],
    pdf: `/papers/${quote.id}.pdf`,
    sha256: quote.sha256,
    awaits: state === 'open' || state === 'lapsed',
    depositUrl:
      mayAskDeposit && (state === 'accepted' || state === 'accepted-in-part')
        ? `${commission}/invoices#deposit`
        : '',
    answerUrl: `${url}/answer`,
    againUrl: `${url}/again`,
    isAnswered: standingAnswer(quote.answers) !== undefined,
    correctionUrl: `${url}/correction`,
    quotesUrl: `${commission}/quotes`,
    answers: quote.answers.map((answer) => ({
      when: dateInWords(answer.answeredOn),
      text: answerInWords(answer, sheet, quote),
    })),
    sheet,
    anyCosts: costs.garments.length > 0,
    rates: costs.told.rates,
    pricing: costs.told.pricing,
    costs: costs.garments.map(({ name, told }) => ({
      name,
      ...told,
      costSum: { caption: 'What it was to cost', lines: told.cost },
      priceSum: { caption: 'What was charged', lines: told.price },
    })),
  };
};

const answerInWords = (
  { answer, byWhom, how, words, taken }: IssuedQuote['answers'][number],
  sheet: QuoteSheet,
  quote: IssuedQuote,
): string => {
  if (answer === 'taken-back') return `${byWhom} took this answer back: ${words}`;
  const manner = how ? `, ${how}` : '';
  const said = words ? ` “${words}”` : '';
  if (answer === 'declined') return `Declined by ${byWhom}${manner}.${said}`;
  const part = taken ? `: ${namesOf(taken, quote).join(', ')}` : '';
  return `${taken ? 'Accepted in part' : 'Accepted'} by ${byWhom}${manner}${part || (sheet.garments.length > 1 ? ', everything in the price' : '')}.${said}`;
};

const namesOf = (refs: readonly string[], quote: IssuedQuote): string[] => {
  const { draft } = JSON.parse(quote.document) as {
    draft: { garments: { ref: string; name: string }[]; options?: { ref: string; text: string }[] };
  };
  const names = new Map([
    ...draft.garments.map(({ ref, name }): [string, string] => [ref, name]),
    ...(draft.options ?? []).map(({ ref, text }): [string, string] => [ref, text]),
  ]);
  return refs.map((ref) => names.get(ref) ?? ref);
};
