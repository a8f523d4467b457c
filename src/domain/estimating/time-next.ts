import { forecastJoint, linesOf } from './forecast/joint.js';
import { BARELY, type PlannedGarment } from './lesson/history.js';
import type { Lesson } from './lesson/lesson.js';

/** What one kind of operation adds to the doubt that more records would take away. */
export interface WorthTiming {
  readonly kind: string;
  /** Share of that doubt, 0 to 1; the shares of a plan add up to 1. */
  readonly share: number;
  /** Finished operations of this kind the lesson has seen. */
  readonly rows: number;
}

/**
 * Which operation to time next so that the price narrows most. The doubt of a plan's total has three sources; the cloth and the client
 * of one garment, and the scatter of single operations, no record takes away. What thin history leaves open is
 * Σ E_i E_j H_ij, with E the expected minutes and H = x_i'C x_j the covariance of what is not known yet. A kind's part is the sum
 * of its rows of it; parts below nought count as nought.
 *
 * @param lesson the fitted lesson
 * @param plan the type's usual plan
 * @returns the kinds of the plan, the one most worth timing first; empty without planned minutes
 * @see test/domain/estimating/explain.test.ts
 */
export const worthTiming = (lesson: Lesson, plan: PlannedGarment): WorthTiming[] => {
  const operations = plan.operations.filter(({ plannedMinutes }) => plannedMinutes >= BARELY);
  const joint = forecastJoint(lesson, linesOf([{ ...plan, operations }]));
  const { size } = joint;
  const expected = joint.planned.map((minutes, i) => minutes * Math.exp(joint.means[i]!));
  const parts = new Map<string, number>();
  operations.forEach(({ kind }, i) => {
    let part = 0;
    for (let j = 0; j < size; j += 1)
      part += expected[i]! * expected[j]! * (joint.shared[i * size + j]! - joint.ofGarment[i * size + j]!);
    parts.set(kind, (parts.get(kind) ?? 0) + part);
  });
  const whole = [...parts.values()].reduce((sum, part) => sum + Math.max(0, part), 0);
  const rows = new Map(lesson.kinds.map((one) => [one.kind, one.rows]));
  return [...parts]
    .map(([kind, part]) => ({
      kind,
      share: whole > 0 ? Math.max(0, part) / whole : 0,
      rows: rows.get(kind) ?? 0,
    }))
    .sort((a, b) => b.share - a.share || (a.kind < b.kind ? -1 : 1));
};
