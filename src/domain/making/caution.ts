import { Invalid } from '../kernel/errors.js';

/** One caution: a sentence shown where it matters, dismissible, never a verdict that something is safe. */
export type Caution = {
  readonly id: string;
  /** Where it matters. */
  readonly place: CautionPlace;
  /** Words that call it up when they stand in a material's or an operation's name; empty for a standing caution. */
  readonly calledBy: readonly string[];
  readonly sentence: string;
  readonly source: string;
};

/** The places of the workroom where cautions stand. */
export const CAUTION_PLACES = [
  'materials',
  'bench',
  'measuring',
  'children',
  'quote',
  'tax',
  'photographs',
] as const;
export type CautionPlace = (typeof CAUTION_PLACES)[number];

/** @throws Invalid when a caution has no sentence, no source or an unknown place */
export const caution = (given: Caution): Caution => {
  if (given.sentence.trim() === '' || given.source.trim() === '')
    throw Invalid.field('sentence', 'A caution needs a sentence and a source.');
  if (!CAUTION_PLACES.includes(given.place)) throw Invalid.field('place', 'This is no place for a caution.');
  return given;
};

/**
 * The cautions that a text calls up, such as a material's name; words are compared whole, without regard to capitals.
 *
 * @returns cautions in their given order, without the standing ones
 */
export const cautionsFor = (text: string, cautions: readonly Caution[]): readonly Caution[] => {
  const words = ` ${text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()} `;
  return cautions.filter(({ calledBy }) => calledBy.some((word) => words.includes(` ${word} `)));
};
