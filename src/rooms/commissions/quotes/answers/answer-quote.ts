import type { CalendarDate } from '../../../../domain/kernel/calendar-date.js';
import { Conflict, Invalid } from '../../../../domain/kernel/errors.js';
import {
  type AnswerKind,
  hasLapsed,
  type QuoteAnswer,
  quoteState,
  standingAnswer,
} from '../../../../domain/papers/quote/quote-answer.js';
import { quoteAnswerBook } from '../../../../storage/books/papers/quote-answer-book.js';
import { type IssuedQuote, quoteBook } from '../../../../storage/books/papers/quote-book.js';
import { type KeptDraft, quoteDraftBook } from '../../../../storage/books/papers/quote-draft-book.js';
import { choicesOf } from '../../../../storage/books/papers/quote-text.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../../storage/clock.js';
import type { Visit, Writing } from '../../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { Asked } from '../../../../web/forms/form.js';
import { dateInWords } from '../../../../web/words/dates.js';
import { quoteSubject } from '../drafts/keep-draft.js';
import { documentOf } from '../kept-prices.js';

/** What a client said to a quote. */
export type AnswerSaid = {
  readonly answer: AnswerKind;
  readonly answeredOn: CalendarDate;
  readonly byWhom: string;
  readonly how: string;
  readonly words: string;
  /** Refs of what was accepted; none means the whole as printed. */
  readonly taken: readonly string[] | undefined;
};

/** An answer, and the next version it led to where only a part was accepted. */
export type Answered = { readonly answer: QuoteAnswer; readonly next: KeptDraft | undefined };

/**
 * Puts down what a client answered to one version. Where a part or an option was accepted, the totals on the paper are no
 * longer what is owed: the answer stands on this version, and a draft of the next one is laid ready in the same act, with
 * exactly the accepted garments and options at the prices of this paper, to be issued as its confirmation.
 *
 * @param sure was "after its last day; is that right?" answered with yes?
 * @throws Conflict when it was answered already or a later version took its place; Asked when it has lapsed
 */
export const answerQuote = (
  unit: UnitOfWork,
  clock: Clock,
  visit: Visit,
  quoteId: string,
  said: AnswerSaid,
  sure: boolean,
): Promise<Done<Answered>> =>
  unit.write(visit, async (writing) => {
    const quote = await quoteBook.one(writing, quoteId);
    const { identity } = await studioBook.the(writing);
    mustAwaitAnswer(quote, todayIn(clock, identity.zone));
    mustBeInTime(quote, said, todayIn(clock, identity.zone), sure);
    const taken = said.answer === 'declined' ? undefined : partOf(quote, said.taken);
    const answer = await quoteAnswerBook.put(writing, quoteId, { ...said, taken, corrects: undefined });
    const next = taken
      ? await quoteDraftBook.begin(writing, {
          commissionId: quote.commissionId,
          number: quote.number,
          pricesOf: quoteId,
          choices: choicesForSome(quote, identity.currency, taken),
        })
      : undefined;
    writing.says(sentenceOf(quote, said, taken), quoteSubject(quote.commissionId, quoteId));
    return { answer, next };
  });

const sentenceOf = (
  { number, edition }: IssuedQuote,
  said: AnswerSaid,
  taken?: readonly string[],
): string => {
  const what = `${number}, version ${edition}`;
  if (said.answer === 'declined') return `${said.byWhom} declined ${what}`;
  return taken ? `${said.byWhom} accepted a part of ${what}` : `${said.byWhom} accepted ${what}`;
};

const mustAwaitAnswer = (quote: IssuedQuote, today: CalendarDate): void => {
  const state = quoteState(quote, today);
  if (state === 'open' || state === 'lapsed') return;
  throw state === 'superseded'
    ? new Conflict('A later version took the place of this one. Put the answer down there.', 'superseded')
    : new Conflict(
        'This version has its answer. If it was put down wrongly, take it back with a reason first.',
        'answered',
      );
};

const mustBeInTime = (quote: IssuedQuote, said: AnswerSaid, today: CalendarDate, sure: boolean): void => {
  if (said.answeredOn > today) throw Invalid.field('answeredOn', 'This day has not come yet.');
  if (said.answeredOn < quote.issuedOn)
    throw Invalid.field('answeredOn', `The quote was issued on ${dateInWords(quote.issuedOn)}.`);
  if (said.answer !== 'accepted' || sure || !hasLapsed(quote.validUntil, said.answeredOn)) return;
  throw new Asked([
    {
      field: 'answeredOn',
      text: `The quote was valid until ${dateInWords(quote.validUntil ?? '')}. Does the studio still stand by it?`,
      confirmName: 'confirm.late',
    },
  ]);
};

/** Refs of what was accepted, checked against the paper; none where it is the whole as printed. */
const partOf = (quote: IssuedQuote, taken: readonly string[] | undefined): readonly string[] | undefined => {
  if (!taken) return undefined;
  const { draft } = documentOf(quote);
  const garments = draft.garments.map(({ ref }) => ref);
  const options = (draft.options ?? []).map(({ ref }) => ref);
  const printed = (draft.options ?? []).filter((option) => option.taken).map(({ ref }) => ref);
  const refs = [...new Set([...taken, ...printed])];
  if (refs.some((ref) => !garments.includes(ref) && !options.includes(ref)))
    throw Invalid.field('taken', 'This is not on the quote.');
  if (!refs.some((ref) => garments.includes(ref)))
    throw Invalid.field('taken', 'Nothing was chosen. Tick what was accepted, or put it down as declined.');
  const isWhole =
    refs.length === garments.length + printed.length && garments.every((ref) => refs.includes(ref));
  return isWhole ? undefined : refs;
};

const choicesForSome = (quote: IssuedQuote, currency: string, taken: readonly string[]) => {
  const document = documentOf(quote);
  const choices = choicesOf(JSON.stringify(document.choices), currency);
  const options = document.draft.options ?? [];
  return {
    ...choices,
    garments: choices.garments.map((garment) => ({
      ...garment,
      included: taken.includes(garment.garmentId),
    })),
    options: choices.options.map((option, place) => ({
      ...option,
      taken: taken.includes(options[place]?.ref ?? ''),
    })),
  };
};

/**
 * Takes an answer back that was put down wrongly. Both stay readable.
 *
 * @throws Conflict when there is no answer to take back
 */
export const takeBackAnswer = (
  unit: UnitOfWork,
  clock: Clock,
  visit: Visit,
  quoteId: string,
  reason: string,
): Promise<Done<QuoteAnswer>> =>
  unit.write(visit, async (writing) => {
    const quote = await quoteBook.one(writing, quoteId);
    const standing = standingAnswer(quote.answers);
    if (!standing) throw new Conflict('There is no answer to take back.', 'not-answered');
    const { identity } = await studioBook.the(writing);
    const answer = await quoteAnswerBook.put(writing, quoteId, {
      answer: 'taken-back',
      answeredOn: todayIn(clock, identity.zone),
      byWhom: visit.who.name,
      how: '',
      words: reason,
      taken: undefined,
      corrects: standing.id,
    });
    await putAwayConfirmation(writing, quote);
    writing.says(
      `Took back the answer to ${quote.number}, version ${quote.edition}: ${reason}`,
      quoteSubject(quote.commissionId, quoteId),
    );
    return answer;
  });

/** A confirmation of what was not accepted after all must not go out. */
const putAwayConfirmation = async (writing: Writing, { id, commissionId }: IssuedQuote): Promise<void> => {
  for (const draft of await quoteDraftBook.ofCommission(writing, commissionId))
    if (draft.pricesOf === id) await quoteDraftBook.remove(writing, draft.id);
};
