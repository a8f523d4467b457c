import { forecastJoint, type Joint, linesOf } from './forecast/joint.js';
import type { PlannedGarment, PlannedOperation } from './lesson/history.js';
import { BARELY } from './lesson/history.js';
import type { Lesson } from './lesson/lesson.js';

/** What one factor of an explanation comes from. */
export const FACTORS = [
  /** How all the work of the studio runs against its plans. */
  'usual',
  /** Not the maker's own plan: the usual overrun is taken back as far as it is only believed. */
  'starting value',
  'type',
  'kind',
  /** This kind within this type. */
  'pair',
  /** Longer or shorter than this kind usually is planned. */
  'size',
  /** The block has been made before for this wearer. */
  'repeat',
] as const;
export type FactorOf = (typeof FACTORS)[number];

/** A planned time as a plain multiplication. */
export interface Explanation {
  readonly kind: string;
  readonly plannedMinutes: number;
  /** In the order of `FACTORS`; those that are exactly 1 are left out. */
  readonly factors: readonly { readonly of: FactorOf; readonly times: number }[];
  /** plannedMinutes × every factor: the even-chance minutes of the operation. */
  readonly minutes: number;
  /** Finished operations of this kind the lesson has seen. */
  readonly rows: number;
}

/**
 * Why an operation is expected to take what it takes: planned × usual × type × kind × kind in this type × size × repeat, each the exp
 * of its effect in the fitted lesson. The product is the median the forecast gives for the operation while it has not been begun.
 *
 * @param lesson the fitted lesson
 * @param plan the garment's plan; operations without planned minutes are left out
 * @returns one explanation for each operation with planned minutes, in the order of the plan; minutes unrounded
 * @throws RangeError for minutes that are no minutes
 * @see predict; test/domain/estimating/explain.test.ts
 */
export const explain = (lesson: Lesson, plan: PlannedGarment): Explanation[] => {
  const operations = plan.operations.filter(({ plannedMinutes }) => plannedMinutes >= BARELY);
  const meant = meansOf(lesson, plan, operations);
  const asOwn = meansOf(
    lesson,
    plan,
    operations.map((operation) => ({ ...operation, fromStartingValues: false })),
  );
  const read = effectsOf(lesson, plan);
  return operations.map((operation, i) => {
    const effects: Record<FactorOf, number> = {
      ...read(operation),
      'starting value': meant[i]! - asOwn[i]!,
    };
    const factors = FACTORS.flatMap((of) =>
      effects[of] === 0 ? [] : [{ of, times: Math.exp(effects[of]) }],
    );
    return {
      kind: operation.kind,
      plannedMinutes: operation.plannedMinutes,
      factors,
      minutes: factors.reduce((minutes, { times }) => minutes * times, operation.plannedMinutes),
      rows: lesson.kinds.find(({ kind }) => kind === operation.kind)?.rows ?? 0,
    };
  });
};

const meansOf = (
  lesson: Lesson,
  plan: PlannedGarment,
  operations: readonly PlannedOperation[],
): Joint['means'] => forecastJoint(lesson, linesOf([{ ...plan, operations }])).means;

/** The effects as the lesson keeps them: mean, kinds, then size, repeat and change; of a type its own, then its pairs. */
const effectsOf = (lesson: Lesson, plan: PlannedGarment) => {
  const { effects } = lesson;
  const type = lesson.types.find(({ garmentType }) => garmentType === plan.garmentType);
  const again = Math.log(Math.max(1, plan.repeat ?? 1));
  return (operation: PlannedOperation): Record<FactorOf, number> => {
    const k = lesson.kinds.findIndex(({ kind }) => kind === operation.kind);
    const pair = k < 0 ? -1 : (type?.pairs.indexOf(k) ?? -1);
    return {
      usual: effects[0] ?? 0,
      'starting value': 0,
      type: type?.effects[0] ?? 0,
      kind: k < 0 ? 0 : (effects[1 + k] ?? 0),
      pair: pair < 0 ? 0 : (type?.effects[pair + 1] ?? 0),
      size:
        k < 0
          ? 0
          : (effects.at(-3) ?? 0) * (Math.log(operation.plannedMinutes) - (lesson.kinds[k]?.meanLn ?? 0)),
      repeat: (effects.at(-2) ?? 0) * again,
    };
  };
};
