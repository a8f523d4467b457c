import type { PastGarment } from '../estimating/lesson/history.js';
import type { CalendarDate } from '../kernel/calendar-date.js';
import { Invalid } from '../kernel/errors.js';
import type { Minutes } from '../kernel/minutes.js';
import { isMode, isStage, type Mode, type Stage } from '../making/mode.js';

/** A seam sewn by hand: whole millimetres and whole stitches. */
export type SewnSeam = { readonly lengthMm: number; readonly stitches: number };

/** What one operation of a closed garment was planned to take and took. Frozen when the garment is closed. */
export type ClosedOperation = {
  /** The line of the plan; empty for work that was in no plan. */
  readonly operationId: string;
  readonly kind: string;
  readonly name: string;
  readonly mode: Mode;
  readonly stage: Stage;
  /** Of the agreed plan, extras included; 0 where nobody planned it. */
  readonly plannedMinutes: Minutes;
  /** Own error and what was asked for without being planned left out; 0 where it was not done. */
  readonly actualMinutes: Minutes;
  readonly ownErrorMinutes: Minutes;
  /** Planned and not done. */
  readonly leftOut: boolean;
  /** Done and not planned, and such work belongs to the next garment too: forgotten, or "every time from now on". */
  readonly forgotten: boolean;
  /** The client or the maker changed the work, and the plan was not changed with it. */
  readonly changeNotReplanned: boolean;
  /** The seam it was planned as, where it was sewn by hand and its stitches were reckoned. */
  readonly seam?: SewnSeam;
};

/**
 * What past garments teach from: the document that stands in a `closed` mark. Others may keep more in the same document; what
 * is not known here is left alone.
 */
export type ClosedGarment = {
  readonly garmentId: string;
  readonly commissionId: string;
  readonly name: string;
  readonly typeId: string;
  readonly closedOn: CalendarDate;
  /** The first and the last day it was worked on; none where nothing was. */
  readonly begunOn: CalendarDate | undefined;
  readonly endedOn: CalendarDate | undefined;
  /** How many times this block has been made for this wearer, this one included. */
  readonly repeat: number;
  /** In the order of the plan; what was in no plan stands last. */
  readonly operations: readonly ClosedOperation[];
  /** Σ of the operations, and minutes that belong to none of them: asked for without a line of the plan. */
  readonly totals: {
    readonly plannedMinutes: Minutes;
    readonly actualMinutes: Minutes;
    readonly ownErrorMinutes: Minutes;
    readonly besideMinutes: Minutes;
  };
};

/** A closed garment in the words of its mark. @see test/domain/lessons/closed-garment.test.ts */
export const closedGarmentText = (garment: ClosedGarment): string =>
  JSON.stringify({ lesson: 1, ...garment });

/**
 * A closed garment out of the document of its mark.
 *
 * @returns undefined where the document holds no lesson: a garment closed without figures
 * @throws Invalid where it holds one that cannot be read
 * @see test/domain/lessons/closed-garment.test.ts
 */
export const readClosedGarment = (document: string): ClosedGarment | undefined => {
  if (document.trim() === '') return undefined;
  let kept: unknown;
  try {
    kept = JSON.parse(document);
  } catch {
    throw new Invalid('What was frozen when this garment was closed cannot be read.');
  }
  if (typeof kept !== 'object' || kept === null || !('lesson' in kept)) return undefined;
  const one = kept as Partial<ClosedGarment> & { lesson: unknown };
  if (one.lesson !== 1) throw new Invalid('This garment was closed by a newer program.');
  return {
    garmentId: text(one.garmentId, 'garmentId'),
    commissionId: text(one.commissionId, 'commissionId'),
    name: text(one.name, 'name'),
    typeId: text(one.typeId, 'typeId'),
    closedOn: text(one.closedOn, 'closedOn'),
    begunOn: one.begunOn === undefined ? undefined : text(one.begunOn, 'begunOn'),
    endedOn: one.endedOn === undefined ? undefined : text(one.endedOn, 'endedOn'),
    repeat: Math.max(1, minutes(one.repeat, 'repeat')),
    operations: list(one.operations).map(operationOf),
    totals: {
      plannedMinutes: minutes(one.totals?.plannedMinutes, 'totals.plannedMinutes'),
      actualMinutes: minutes(one.totals?.actualMinutes, 'totals.actualMinutes'),
      ownErrorMinutes: minutes(one.totals?.ownErrorMinutes, 'totals.ownErrorMinutes'),
      besideMinutes: minutes(one.totals?.besideMinutes, 'totals.besideMinutes'),
    },
  };
};

const broken = (field: string): Invalid =>
  Invalid.field(field, 'What was frozen when this garment was closed is incomplete.');

const text = (value: unknown, field: string): string => {
  if (typeof value !== 'string') throw broken(field);
  return value;
};

/** A whole number from 0. */
const minutes = (value: unknown, field: string): Minutes => {
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 0) throw broken(field);
  return value;
};

const list = (value: unknown): readonly Partial<ClosedOperation>[] => {
  if (!Array.isArray(value)) throw broken('operations');
  return value as Partial<ClosedOperation>[];
};

const operationOf = (one: Partial<ClosedOperation>, place: number): ClosedOperation => {
  const at = (field: string) => `operations.${place}.${field}`;
  const mode = text(one.mode, at('mode'));
  const stage = text(one.stage, at('stage'));
  if (!isMode(mode)) throw broken(at('mode'));
  if (!isStage(stage)) throw broken(at('stage'));
  return {
    operationId: text(one.operationId, at('operationId')),
    kind: text(one.kind, at('kind')),
    name: text(one.name, at('name')),
    mode,
    stage,
    plannedMinutes: minutes(one.plannedMinutes, at('plannedMinutes')),
    actualMinutes: minutes(one.actualMinutes, at('actualMinutes')),
    ownErrorMinutes: minutes(one.ownErrorMinutes, at('ownErrorMinutes')),
    leftOut: one.leftOut === true,
    forgotten: one.forgotten === true,
    changeNotReplanned: one.changeNotReplanned === true,
    ...(one.seam === undefined
      ? {}
      : {
          seam: {
            lengthMm: minutes(one.seam.lengthMm, at('seam.lengthMm')),
            stitches: minutes(one.seam.stitches, at('seam.stitches')),
          },
        }),
  };
};

/**
 * Closed garments as the lesson is fitted to them: oldest first, one row for each operation. Own error is no row; work left out
 * has no minutes, work that was forgotten no plan, and `leftOut` of the estimates counts both.
 *
 * @param closed in any order; of one day the order given stands
 * @see fitLesson; test/domain/lessons/closed-garment.test.ts
 */
export const lessonsFrom = (closed: readonly ClosedGarment[]): PastGarment[] =>
  [...closed]
    .sort((a, b) => (a.closedOn < b.closedOn ? -1 : a.closedOn > b.closedOn ? 1 : 0))
    .map(({ typeId, repeat, operations }) => ({
      garmentType: typeId,
      repeat,
      operations: operations
        .filter(({ plannedMinutes, forgotten }) => plannedMinutes > 0 || forgotten)
        .map(({ kind, plannedMinutes, actualMinutes, leftOut, changeNotReplanned }) => ({
          kind,
          plannedMinutes,
          actualMinutes: leftOut ? 0 : actualMinutes,
          ...(changeNotReplanned ? { changeNotReplanned } : {}),
        })),
    }));
