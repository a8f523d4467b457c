import { type CalendarDate, daysBetween } from '../../domain/kernel/calendar-date.js';
import { quoteState } from '../../domain/papers/quote/quote-answer.js';
import { clockBook } from '../../storage/books/bench/clock-book.js';
import { personBook } from '../../storage/books/bench/person-book.js';
import { clientBook } from '../../storage/books/client-book.js';
import { commissionBook } from '../../storage/books/commission-book.js';
import { owedTogether } from '../../storage/books/papers/owed-together.js';
import { type ListedQuote, quoteBook } from '../../storage/books/papers/quote-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../storage/clock.js';
import { keptIn, type Reading } from '../../storage/session.js';
import type { PageWords } from '../../web/reply.js';
import type { SignedIn } from '../../web/visit.js';
import { mayGo } from '../../web/who-may.js';
import { moneyInWords } from '../../web/words/amounts.js';
import { countInWords } from '../../web/words/counts.js';
import { dateInWords, timeInWords } from '../../web/words/dates.js';
import { clockWords } from './clock/clock-now.page.js';
import { leavingNext } from './day-sheet/leaving.js';
import { daysInWords, leavingTable } from './day-sheet/leaving-words.js';
import { todaysFittings, tomorrowsFittings } from './fittings-ahead/fittings-ahead.page.js';
import { whatInWords } from './work/work-words.js';

const MOST = 20;

/** The day sheet: the clock, what leaves next and whether it will be ready, what waits for an answer, what is owed. */
export const daySheet = async (reading: Reading, clock: Clock, hand: SignedIn): Promise<PageWords> => {
  const { identity } = await studioBook.the(reading);
  const today = todayIn(clock, identity.zone);
  const { lines, more } = await leavingNext(reading, today, MOST);
  const may = (url: string): boolean => mayGo(hand, 'GET', url);
  const quotes = hand.seesPrices && may('/papers') ? await waitingQuotes(reading, today) : [];
  const empty = lines.length === 0 && !(await anyCommission(reading));
  return {
    title: 'Bench',
    room: 'bench',
    today: dateInWords(today),
    empty,
    first:
      (await clientBook.count(reading)) > 0
        ? { text: 'Open the first commission', href: '/commissions/new' }
        : { text: 'Add the first client', href: '/clients/new' },
    now: empty ? undefined : await clockWords(reading, clock, hand),
    others: empty ? [] : await othersAtWork(reading, hand, identity.zone),
    fittingsToday: await todaysFittings(reading, clock, { seesPrices: hand.seesPrices, may }),
    fittingsTomorrow: await tomorrowsFittings(reading, clock, { seesPrices: hand.seesPrices, may }),
    anyLeaving: lines.length > 0,
    leaving: leavingTable(lines, today, may),
    more: more > 0 ? `${countInWords(more, 'garment')} more that leave later or have no day.` : '',
    anyQuotes: quotes.length > 0,
    quotes: quotesTable(quotes, today, identity.locale),
    owed: may('/papers/owed') ? await owedInWords(reading, identity.locale) : '',
    mayOpen: may('/commissions/new'),
  };
};

const anyCommission = (reading: Reading): Promise<boolean> =>
  keptIn(
    reading,
    'is there a commission',
    async () => (await commissionBook.find(reading, '', 1)).items.length > 0,
  );

const waitingQuotes = (reading: Reading, today: CalendarDate): Promise<ListedQuote[]> =>
  keptIn(reading, `quotes that wait on ${today}`, async () =>
    (await quoteBook.find(reading, '', MOST)).items.filter((quote) => quoteState(quote, today) === 'open'),
  );

/** Who else has a clock running: `Ilse Marrow: lapels, Jacket, since 14:05`. */
const othersAtWork = async (reading: Reading, visit: SignedIn, zone: string): Promise<string[]> => {
  const clocks = await clockBook.all(reading);
  if (clocks.length === 0) return [];
  const people = new Map((await personBook.all(reading)).map((person) => [person.id, person]));
  return clocks.flatMap((running) => {
    const person = people.get(running.personId);
    if (!person || person.accountId === visit.who.id) return [];
    const what = [whatInWords(running), running.garmentName].filter(Boolean).join(', ');
    return [`${person.name}: ${what}, since ${timeInWords(running.begunAt, zone)}`];
  });
};

const owedInWords = async (reading: Reading, locale: string): Promise<string> => {
  const { owed, clients } = await owedTogether(reading);
  return clients === 0
    ? ''
    : clients === 1
      ? `One client owes ${moneyInWords(owed, locale)}.`
      : `${countInWords(clients, 'client')} owe ${moneyInWords(owed, locale)} together.`;
};

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
