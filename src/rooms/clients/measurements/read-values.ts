import type { FieldTrouble } from '../../../domain/kernel/errors.js';
import { type BodyDimension, isSigned } from '../../../domain/measuring/body-dimension.js';
import { type LengthEntry, readLength } from '../../../domain/measuring/length-entry.js';
import type { PreferredUnit } from '../../../domain/measuring/length-unit.js';
import {
  type MeasuredValue,
  type MeasurementSet,
  takenIn,
} from '../../../domain/measuring/measurement-set.js';
import { questionsAbout } from '../../../domain/measuring/questions.js';
import type { Choice } from '../../../domain/measuring/reading.js';
import type { NamedValue } from './name-dimensions.js';

/** Something asked before it is kept: what may have been meant, and whether it may stand as typed. */
export type Question = FieldTrouble & { readonly choices: readonly Choice[]; readonly canStand: boolean };

/** What is known when typed measurements are read. */
export type ReadingOf = {
  readonly preferred: PreferredUnit;
  readonly isChild: boolean;
  /** What the client measured last; it is compared with first. */
  readonly last: MeasurementSet | undefined;
  /** The set that is being mended: what was stood by there is not asked about again. */
  readonly mends: MeasurementSet | undefined;
};

type Read = { readonly place: number; readonly value: MeasuredValue; readonly dimension: BodyDimension };

/** Reads every typed measurement; says what cannot be read, and asks about what may be a slip. */
export const readValues = (
  named: readonly NamedValue[],
  of: ReadingOf,
): { values: MeasuredValue[]; troubles: FieldTrouble[]; questions: Question[] } => {
  const troubles: FieldTrouble[] = [];
  const questions: Question[] = [];
  const read: Read[] = [];
  for (const one of named) {
    const outcome = readOne(one, of);
    if (outcome === undefined) continue;
    if ('entry' in outcome) read.push(readOf(one, outcome.entry, outcome.confirmed, of.mends));
    else if ('choices' in outcome) questions.push(outcome);
    else troubles.push(outcome);
  }
  const compared = compare(named, read, of);
  return { values: compared.values, troubles, questions: [...questions, ...compared.questions] };
};

const readOf = (
  { place, dimension }: NamedValue,
  entry: LengthEntry,
  confirmed: boolean,
  mends: MeasurementSet | undefined,
): Read => {
  const before = mends && takenIn(mends, dimension.id);
  const stoodBy = before?.confirmed === true && before.entry.mm === entry.mm;
  return { place, dimension, value: { dimension: dimension.id, entry, confirmed: confirmed || stoodBy } };
};

const readOne = (
  { dimension, words, place }: NamedValue,
  { preferred }: ReadingOf,
): { entry: LengthEntry; confirmed: boolean } | Question | FieldTrouble | undefined => {
  const field = `values.${place}.typed`;
  const reading = readLength(words.typed, { preferred, signed: isSigned(dimension) });
  if (reading.kind === 'empty') return undefined;
  if (reading.kind === 'refuse') return { field, text: reading.sentence };
  if (reading.kind === 'ok') return { entry: reading.value, confirmed: words.confirmed };
  const chosen = reading.choices.find(({ typed }) => typed === words.choice);
  const meant = chosen && readLength(chosen.typed, { preferred, signed: isSigned(dimension) });
  // Asked which unit was meant, the text typed is kept beside the unit understood; a slip is mended in the text too.
  if (meant?.kind === 'ok')
    return {
      entry: reading.meaning ? meant.value : { ...meant.value, typed: words.typed },
      confirmed: words.confirmed,
    };
  if (reading.meaning && words.confirmed) return { entry: reading.meaning, confirmed: true };
  return { field, text: reading.sentence, choices: reading.choices, canStand: reading.meaning !== undefined };
};

const compare = (
  named: readonly NamedValue[],
  read: readonly Read[],
  of: ReadingOf,
): { values: MeasuredValue[]; questions: Question[] } => {
  const dimensions = named.map(({ dimension }) => dimension);
  const asked = (values: readonly MeasuredValue[]) =>
    questionsAbout({ ...NOBODY, values }, of.last, { isChild: of.isChild }, dimensions);
  const open = asked(read.map(({ value }) => value));
  const settled = read.map(({ value, place, dimension }): MeasuredValue => {
    const choice = named.find((one) => one.place === place)?.words.choice ?? '';
    const offered = open.find((one) => one.dimension === value.dimension)?.choices ?? [];
    if (choice === '' || !offered.some(({ typed }) => typed === choice)) return value;
    const meant = readLength(choice, { preferred: of.preferred, signed: isSigned(dimension) });
    return meant.kind === 'ok' ? { ...value, entry: meant.value } : value;
  });
  const questions = asked(settled).map(({ dimension, sentence, choices }): Question => {
    const place = read.find(({ value }) => value.dimension === dimension)?.place ?? 0;
    const text = sentence.charAt(0).toLocaleUpperCase('en') + sentence.slice(1);
    return { field: `values.${place}.typed`, text, choices, canStand: true };
  });
  return { values: settled, questions };
};

const NOBODY: MeasurementSet = {
  id: '',
  wearer: '',
  takenOn: '2000-01-01',
  takenBy: '',
  over: '',
  figuration: '',
  values: [],
};
