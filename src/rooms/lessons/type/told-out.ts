import { Decimal } from '../../../domain/kernel/decimal.js';
import type { OperationLesson } from '../../../domain/lessons/by-operation.js';
import type { TypeTold } from './type-told.js';

const figure = (value: number): string => new Decimal(value).toDecimalPlaces(4).toFixed();

/** What an operation takes, for programs: minutes. */
export const operationOut = (one: OperationLesson) => ({
  ...one,
  typical: figure(one.typical),
  even: figure(one.even),
  fourInFive: figure(one.fourInFive),
  nineInTen: figure(one.nineInTen),
});

/** Everything else that is told of one type, for programs. */
export const toldOut = (told: TypeTold) => ({
  made: (told.lesson?.made ?? []).map(({ typeId: _, ...one }) => one),
  operations: told.operations.map(operationOut),
  modes: told.modes,
  often: told.leftOut,
  mending: told.mending,
  earned: told.earned ?? null,
  drift: { alarm: told.drift.alarm ?? null, together: told.drift.together },
  repeats: told.repeats ?? null,
  worthTiming: told.worthTiming,
  usualPlan: told.usual,
});
