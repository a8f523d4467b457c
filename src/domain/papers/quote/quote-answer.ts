import type { CalendarDate, Instant } from '../../kernel/calendar-date.js';

/** What a client may answer. */
export const ANSWERS = ['accepted', 'declined'] as const;
export type AnswerKind = (typeof ANSWERS)[number];

/** An answer as it was put down. */
export type QuoteAnswer = {
  readonly id: string;
  /** `taken-back` says that an earlier answer was put down wrongly. */
  readonly answer: AnswerKind | 'taken-back';
  readonly answeredOn: CalendarDate;
  readonly byWhom: string;
  /** In person, by letter, by telephone … */
  readonly how: string;
  /** Why it was declined, or taken back. */
  readonly words: string;
  /** Refs of the garments and options accepted; none means the whole as printed. */
  readonly taken: readonly string[] | undefined;
  /** The answer a correction takes back. */
  readonly corrects: string | undefined;
  readonly writtenAt: Instant;
};

/** How one version of a quote stands. */
export type QuoteState = 'open' | 'lapsed' | 'accepted' | 'accepted-in-part' | 'declined' | 'superseded';

/**
 * The answer that counts: the last that no correction took back.
 *
 * @param answers oldest first
 * @returns undefined while there is none
 * @see test/domain/papers/quote-answer.test.ts
 */
export const standingAnswer = (answers: readonly QuoteAnswer[]): QuoteAnswer | undefined => {
  const takenBack = new Set(answers.map(({ corrects }) => corrects));
  return answers.filter(({ answer, id }) => answer !== 'taken-back' && !takenBack.has(id)).at(-1);
};

/**
 * How a version stands on a day. An answer outlives everything: an accepted version stays accepted when a later one is
 * issued. Without an answer a later version takes its place; without that it lapses after the day until which it is valid.
 *
 * @param quote.laterEdition is there a later version under the same number?
 * @param today the day in the studio's zone
 * @see test/domain/papers/quote-answer.test.ts
 */
export const quoteState = (
  quote: {
    readonly validUntil: CalendarDate | undefined;
    readonly laterEdition: boolean;
    readonly answers: readonly QuoteAnswer[];
  },
  today: CalendarDate,
): QuoteState => {
  const answer = standingAnswer(quote.answers);
  if (answer?.answer === 'accepted') return answer.taken ? 'accepted-in-part' : 'accepted';
  if (answer) return 'declined';
  if (quote.laterEdition) return 'superseded';
  return hasLapsed(quote.validUntil, today) ? 'lapsed' : 'open';
};

/** Is the day after the last on which a quote is valid? The last day itself still counts. */
export const hasLapsed = (validUntil: CalendarDate | undefined, day: CalendarDate): boolean =>
  validUntil !== undefined && day > validUntil;
