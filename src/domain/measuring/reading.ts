/** One answer a question offers: words for the button, and the text that means it without a further question. */
export type Choice = { readonly words: string; readonly typed: string };

/**
 * What came of something a person typed. Every reader of text in the house answers with one of these.
 *
 * - `empty`: nothing was typed, which is different from nought.
 * - `ok`: the value understood.
 * - `ask`: more than one meaning, or one that looks like a slip. `choices` may be typed instead; where `meaning` is
 *   present, it is the value to keep when the person says "yes, as typed" (see `confirmed`).
 * - `refuse`: cannot be meant; `sentence` says why and what to do. The text typed is kept by the form.
 */
export type Reading<T> =
  | { readonly kind: 'empty' }
  | { readonly kind: 'ok'; readonly value: T }
  | {
      readonly kind: 'ask';
      readonly sentence: string;
      readonly choices: readonly Choice[];
      readonly meaning?: T;
    }
  | { readonly kind: 'refuse'; readonly sentence: string };

/** Nothing was typed. */
export const nothingTyped: { readonly kind: 'empty' } = { kind: 'empty' };

/** The value understood. */
export const understood = <T>(value: T): Reading<T> => ({ kind: 'ok', value });

/** A refusal with its sentence. */
export const refused = (sentence: string): { readonly kind: 'refuse'; readonly sentence: string } => ({
  kind: 'refuse',
  sentence,
});

/** A question with the answers it offers, and the value to keep if the person stands by what was typed. */
export const asked = <T>(sentence: string, choices: readonly Choice[], meaning?: T): Reading<T> =>
  meaning === undefined ? { kind: 'ask', sentence, choices } : { kind: 'ask', sentence, choices, meaning };

/**
 * The reading after the person was asked "is that right?" and said yes: a question that carries a meaning becomes `ok`.
 *
 * @param said did the person stand by what was typed?
 * @returns the reading itself when there was no question, or the question names no meaning
 */
export const confirmed = <T>(reading: Reading<T>, said: boolean): Reading<T> =>
  said && reading.kind === 'ask' && reading.meaning !== undefined ? understood(reading.meaning) : reading;

/** Gives the value another shape; the other outcomes pass through. */
export const mapReading = <T, U>(reading: Reading<T>, to: (value: T) => U): Reading<U> => {
  if (reading.kind === 'ok') return understood(to(reading.value));
  if (reading.kind !== 'ask') return reading;
  return asked(
    reading.sentence,
    reading.choices,
    reading.meaning === undefined ? undefined : to(reading.meaning),
  );
};
