import { foldForSearch } from '../../../domain/clients/client.js';
import type { FieldTrouble } from '../../../domain/kernel/errors.js';
import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import type { Writing } from '../../../storage/session.js';
import type { ValueWords } from './measurement.form.js';
import type { Question } from './read-values.js';

/** A measurement whose dimension is known, and where its trouble is said. */
export type NamedValue = {
  readonly dimension: BodyDimension;
  readonly words: ValueWords;
  readonly place: number;
};

/** The dimension somebody means by a name: its short name, the standard's or the trade's word. */
export const dimensionNamed = (known: readonly BodyDimension[], name: string): BodyDimension | undefined => {
  const folded = foldForSearch(name);
  const isMeant = (word: string): boolean => word !== '' && foldForSearch(word) === folded;
  return (
    known.find(({ id }) => id === name) ??
    known.find(({ tradeWord }) => isMeant(tradeWord)) ??
    known.find((one) => isMeant(one.name))
  );
};

/**
 * Finds the dimension of every measurement. A name nobody knows is asked about once, so that a misspelt one makes no
 * second column for the same thing, and is then kept as the studio's own.
 */
export const nameDimensions = async (
  writing: Writing,
  known: readonly BodyDimension[],
  values: readonly ValueWords[],
): Promise<{ named: NamedValue[]; troubles: FieldTrouble[]; questions: Question[] }> => {
  const all = [...known];
  const named: NamedValue[] = [];
  const troubles: FieldTrouble[] = [];
  const questions: Question[] = [];
  for (const [place, words] of values.entries()) {
    const field = `values.${place}.name`;
    let dimension = words.name
      ? dimensionNamed(all, words.name)
      : all.find(({ id }) => id === words.dimension);
    if (!dimension && words.name === '') {
      const text = `There is no dimension “${words.dimension.slice(0, 60)}” here.`;
      troubles.push({ field: `values.${place}.dimension`, text });
    } else if (!dimension && !words.isNew) {
      const text = `“${words.name}” is not measured here yet. Keep it as a new measurement?`;
      questions.push({ field, text, choices: [], canStand: true });
    } else if (!dimension) {
      dimension = await dimensionBook.addOwn(writing, words.name);
      all.push(dimension);
    }
    if (dimension) named.push({ dimension, words, place });
  }
  return { named, troubles, questions };
};
