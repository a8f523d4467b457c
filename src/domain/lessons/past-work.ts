import type { PastGarment as Lesson } from '../estimating/lesson/history.js';
import { Invalid } from '../kernel/errors.js';
import { isMode, isStage, type Mode, type Stage } from '../making/mode.js';
import { type ClosedGarment, type ClosedOperation, lessonsFrom } from './closed-garment.js';
import type { PastGarment } from './past-garment.js';

/** One operation of a garment made before the program was there. */
export type PastOperation = {
  readonly kind: string;
  readonly name: string;
  readonly mode: Mode;
  readonly stage: Stage;
  /** Whole minutes; 0 where it was planned and not done. */
  readonly actualMinutes: number;
  /** Whole minutes; 0 where it is known that nobody had planned it, undefined where nothing is known of a plan. */
  readonly plannedMinutes: number | undefined;
  /** What the type's usual plan gave it when it was brought in: the measure where nothing is known of a plan. */
  readonly usualMinutes: number | undefined;
};

/** A past garment of which the operations are known. */
export type PastByOperation = PastGarment & { readonly operations: readonly PastOperation[] };

/** Operations in the words of their row. @see test/domain/lessons/past-work.test.ts */
export const pastWorkText = (operations: readonly PastOperation[]): string =>
  JSON.stringify({ work: 1, operations });

/**
 * Operations out of their row.
 *
 * @throws Invalid where they cannot be read
 * @see test/domain/lessons/past-work.test.ts
 */
export const readPastWork = (document: string): PastOperation[] => {
  let kept: unknown;
  try {
    kept = JSON.parse(document);
  } catch {
    throw broken();
  }
  const { work, operations } = (kept ?? {}) as { work?: unknown; operations?: unknown };
  if (work !== 1 || !Array.isArray(operations)) throw broken();
  return (operations as Partial<PastOperation>[]).map((one) => {
    const { kind, name, mode, stage } = one;
    if (typeof kind !== 'string' || typeof name !== 'string') throw broken();
    if (!isMode(mode as string) || !isStage(stage as string)) throw broken();
    return {
      ...{ kind, name, mode: mode as Mode, stage: stage as Stage },
      actualMinutes: minutes(one.actualMinutes) ?? 0,
      plannedMinutes: minutes(one.plannedMinutes),
      usualMinutes: minutes(one.usualMinutes),
    };
  });
};

const broken = (): Invalid => new Invalid('The operations of a past garment cannot be read.');

const minutes = (value: unknown): number | undefined => {
  if (value === undefined || value === null) return undefined;
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 0) throw broken();
  return value;
};

/** The plan an operation is measured against; the usual one where nothing is known of its own. */
const measure = ({ plannedMinutes, usualMinutes }: PastOperation): number =>
  plannedMinutes ?? usualMinutes ?? 0;

/**
 * Is at least one operation known with its time and a plan to hold it against? Only then the lesson reads it by operation; else its
 * total goes on counting among those of the notebook.
 *
 * @see test/domain/lessons/past-work.test.ts
 */
export const teachesByOperation = (operations: readonly PastOperation[]): boolean =>
  operations.some((one) => one.actualMinutes > 0 && measure(one) > 0);

/**
 * A past garment as a closed one, for what is told of operations, modes and forgotten work. Plans are its own only, so that no "planned
 * against taken" rests on a starting value. It says nothing about mending or money: neither stands in a list of hours.
 *
 * @returns whole minutes; a garment without a day was closed before all others
 * @see test/domain/lessons/past-work.test.ts
 */
export const asClosed = (past: PastByOperation): ClosedGarment => {
  const operations = past.operations.map(operationOf);
  const sum = (of: (one: ClosedOperation) => number) => operations.reduce((all, one) => all + of(one), 0);
  return {
    garmentId: past.id,
    commissionId: '',
    name: past.note,
    typeId: past.typeId,
    closedOn: past.finishedOn ?? '',
    begunOn: undefined,
    endedOn: past.finishedOn,
    repeat: 1,
    operations,
    totals: {
      plannedMinutes: sum(({ plannedMinutes }) => plannedMinutes),
      actualMinutes: sum(({ actualMinutes }) => actualMinutes),
      ownErrorMinutes: 0,
      besideMinutes: 0,
    },
  };
};

const operationOf = ({
  kind,
  name,
  mode,
  stage,
  actualMinutes,
  plannedMinutes,
}: PastOperation): ClosedOperation => ({
  operationId: '',
  ...{ kind, name, mode, stage, actualMinutes },
  plannedMinutes: plannedMinutes ?? 0,
  ownErrorMinutes: 0,
  leftOut: actualMinutes === 0,
  forgotten: plannedMinutes === 0 && actualMinutes > 0,
  changeNotReplanned: false,
});

/**
 * Everything the lesson is fitted to: closed garments, and past ones known by operation among them by their day. An operation
 * without a known plan is held against the usual plan, as a line taken unchanged from the starting values would be.
 *
 * @param closed in the order they were closed in
 * @param past in the order they were written down; without a day they come first
 * @returns oldest first
 * @see lessonsFrom; test/domain/lessons/past-work.test.ts
 */
export const teachingHistory = (
  closed: readonly ClosedGarment[],
  past: readonly PastByOperation[],
): Lesson[] =>
  lessonsFrom([
    ...past
      .filter(({ operations }) => teachesByOperation(operations))
      .map((one) =>
        asClosed({
          ...one,
          operations: one.operations.map((of) => ({
            ...of,
            plannedMinutes: of.plannedMinutes ?? of.usualMinutes,
          })),
        }),
      ),
    ...closed,
  ]);
