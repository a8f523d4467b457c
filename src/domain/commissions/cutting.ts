import { type FieldTrouble, Invalid } from '../kernel/errors.js';
import { type Difference, differences } from '../measuring/difference.js';
import type { MeasurementSet } from '../measuring/measurement-set.js';

/** What is asked once, when cutting is recorded. */
export const CUT_QUESTIONS = ['measurements', 'cloth', 'deposit', 'quote'] as const;
export type CutQuestion = (typeof CUT_QUESTIONS)[number];

/** One answer, with what the program knew when it was asked. */
export type CutAnswer = {
  readonly question: CutQuestion;
  readonly isSo: boolean;
  /** Why it was cut all the same. */
  readonly words: string;
  readonly known: string;
};

/** What cutting freezes: the measurements it was cut by, as they were typed, and the answers. */
export type CutDocument = {
  readonly set: MeasurementSet | undefined;
  readonly answers: readonly CutAnswer[];
};

/**
 * The answers given when cutting is recorded, checked: where something is not so, there are words why it goes on.
 *
 * @throws Invalid beside each question that has no answer, or no words why it goes on
 * @see design 4-experience.md; test/domain/commissions/cutting.test.ts
 */
export const checkCutting = (
  answers: readonly (Omit<CutAnswer, 'isSo'> & { readonly isSo: boolean | undefined })[],
): CutAnswer[] => {
  const troubles = CUT_QUESTIONS.flatMap((question): FieldTrouble[] => {
    const answer = answers.find((one) => one.question === question);
    if (answer?.isSo === undefined) return [{ field: question, text: 'Answer yes or not yet.' }];
    return !answer.isSo && answer.words.trim() === ''
      ? [{ field: `${question}Words`, text: 'Say why it is cut all the same.' }]
      : [];
  });
  if (troubles.length > 0) throw new Invalid(troubles[0]!.text, troubles);
  return answers.map((answer) => ({ ...answer, isSo: answer.isSo === true }));
};

/**
 * What has changed on the body since a garment was cut: every measurement of the later set that is another now, or that was
 * not taken then.
 *
 * @param cut the measurements it was cut by
 * @param latest the wearer's newest set
 * @returns in the order of the later set; empty where nothing changed or nothing was measured since
 * @see test/domain/commissions/cutting.test.ts
 */
export const sinceCutting = (
  cut: MeasurementSet | undefined,
  latest: MeasurementSet | undefined,
): readonly Difference[] =>
  !latest || latest.id === cut?.id
    ? []
    : differences(latest, cut).filter(({ mm }) => mm === undefined || !isNought(mm));

/** Exact millimetres are text: `0`, or a fraction with nought above the line. */
const isNought = (mm: string): boolean => /^-?0*(\.0*)?(\/\d+)?$/.test(mm);
