import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import type { Typed } from '../../../web/forms/typed.js';
import { dateInWords } from '../../../web/words/dates.js';
import { lengthInWords } from '../../../web/words/lengths.js';
import type { Question } from './read-values.js';
import type { LastTaken } from './standing.js';
import { answerTo } from './take.form.js';

/** A question beside a field, with the answers it offers. */
export type QuestionWords = {
  /** The field's name. */
  readonly of: string;
  readonly text: string;
  /** What was typed when it was asked. */
  readonly asked: string;
  readonly kind: 'radio' | 'checkbox';
  readonly options: readonly { value: string; text: string }[];
};

/** An answer of an earlier round that still holds. */
export type Settled = { readonly of: string; readonly said: string; readonly asked: string };

/** One row to measure, in words. */
export type MeasuringRow = {
  readonly name: string;
  readonly word: string;
  readonly iso: string;
  readonly how: string;
  readonly last: string;
  readonly lastOn: string;
  readonly question?: QuestionWords;
  readonly settled?: Settled;
};

/** What is said and asked about one field of the form. */
export const aboutField = (
  field: string,
  present: string,
  typed: Typed,
  questions: ReadonlyMap<string, Question>,
): { question?: QuestionWords; settled?: Settled } => {
  const question = questions.get(field);
  if (question) {
    const stand = question.canStand
      ? [{ value: 'yes', text: question.choices.length > 0 ? 'Yes, as it is written' : 'Yes, that is right' }]
      : [];
    const options = [
      ...stand,
      ...question.choices.map(({ words, typed: value }) => ({ value, text: words })),
    ];
    const kind = options.length > 1 ? 'radio' : 'checkbox';
    return { question: { of: field, text: question.text, asked: present, kind, options } };
  }
  const said = answerTo(typed, field, present);
  return said === '' ? {} : { settled: { of: field, said, asked: present } };
};

/** A word at the head of a line. */
export const capital = (word: string): string => word.charAt(0).toLocaleUpperCase('en') + word.slice(1);

/** The word the workroom uses, large; the standard's beside it where there is one and it is another word. */
export const wordsOf = (dimension: BodyDimension): { word: string; iso: string } => {
  const word = capital(dimension.tradeWord || dimension.name);
  return { word, iso: dimension.fromStandard ? dimension.name : '' };
};

/** The rows of a list of dimensions. */
export const measuringRows = (
  dimensions: readonly BodyDimension[],
  last: LastTaken,
  typed: Typed,
  questions: ReadonlyMap<string, Question>,
): MeasuringRow[] =>
  dimensions.map((dimension) => {
    const name = `v.${dimension.id}`;
    const before = last.set?.values.find((value) => value.dimension === dimension.id);
    const day = last.on.get(dimension.id);
    return {
      name,
      ...wordsOf(dimension),
      how: dimension.how,
      last: before ? lengthInWords(before.entry) : '',
      lastOn: day ? dateInWords(day) : '',
      ...aboutField(name, typed[name] ?? '', typed, questions),
    };
  });

/** What to measure: the list of a garment type, what the client had before beside it, and what is typed already. */
export const dimensionsToTake = (
  known: readonly BodyDimension[],
  list: readonly string[],
  last: LastTaken,
  typed: Typed,
): { listed: BodyDimension[]; before: BodyDimension[] } => {
  const byId = new Map(known.map((dimension) => [dimension.id, dimension]));
  const listed = list.flatMap((id) => byId.get(id) ?? []);
  const more = new Set([
    ...(last.set?.values.map(({ dimension }) => dimension) ?? []),
    ...Object.keys(typed)
      .filter((field) => field.startsWith('v.') && typed[field]?.trim() !== '')
      .map((field) => field.slice(2)),
  ]);
  return { listed, before: known.filter(({ id }) => more.has(id) && !list.includes(id)) };
};
