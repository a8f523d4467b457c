import { studentQuantile } from './chance/student.js';
import type { Lesson } from './lesson/lesson.js';

/** What making the same block again does to the time it takes. */
export interface Repeats {
  /** Time of the second, the fourth, the eighth as a share of the one half as often made: 2^lambda; 0.9 is a tenth less. */
  readonly eachDoubling: number;
}

/**
 * Learning by repeats: lambda of the lesson, the unit form of the learning curve, told only where it is more than noise: where its
 * central 90 % does not hold 0.
 *
 * @param lesson the fitted lesson
 * @param repeats garments in the history that were not the first of their block for their wearer
 * @returns undefined without repeats, or where it may well be noise
 * @see J. R. Crawford, unit theory of the learning curve; test/domain/estimating/explain.test.ts
 */
export const learningByRepeats = (lesson: Lesson, repeats: number): Repeats | undefined => {
  const { effects, covariance, belief, kinds } = lesson;
  if (repeats === 0 || lesson.garments === 0) return undefined;
  const at = effects.length - 2;
  const lambda = effects[at] ?? 0;
  const spread = Math.sqrt(Math.max(0, covariance[at * effects.length + at] ?? 0));
  const reach = studentQuantile(0.95, belief.nu0 + kinds.length) * spread;
  return Math.abs(lambda) > reach ? { eachDoubling: 2 ** lambda } : undefined;
};
