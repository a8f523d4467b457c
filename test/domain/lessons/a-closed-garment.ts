import type { ClosedGarment, ClosedOperation } from '../../../src/domain/lessons/closed-garment.js';

/** One operation of an invented garment. */
export const done = (
  kind: string,
  plannedMinutes: number,
  actualMinutes: number,
  more: Partial<ClosedOperation> = {},
): ClosedOperation => ({
  operationId: kind,
  kind,
  name: kind.replaceAll('-', ' '),
  mode: 'hand',
  stage: 'make',
  plannedMinutes,
  actualMinutes,
  ownErrorMinutes: 0,
  leftOut: plannedMinutes > 0 && actualMinutes === 0,
  forgotten: plannedMinutes === 0 && actualMinutes > 0,
  changeNotReplanned: false,
  ...more,
});

/** An invented closed garment out of its operations. */
export const aClosedGarment = (
  operations: readonly ClosedOperation[],
  more: Partial<ClosedGarment> = {},
): ClosedGarment => {
  const sum = (of: (one: ClosedOperation) => number): number =>
    operations.reduce((all, one) => all + of(one), 0);
  return {
    garmentId: 'g',
    commissionId: 'c',
    name: 'Jacket',
    typeId: 'lounge-jacket',
    closedOn: '2026-02-20',
    begunOn: undefined,
    endedOn: undefined,
    repeat: 1,
    operations,
    totals: {
      plannedMinutes: sum((one) => one.plannedMinutes),
      actualMinutes: sum((one) => one.actualMinutes),
      ownErrorMinutes: sum((one) => one.ownErrorMinutes),
      besideMinutes: 0,
    },
    ...more,
  };
};
