import { near } from '../estimating/far-off.js';
import { trueHours } from '../estimating/true-hours.js';
import type { Decimal } from '../kernel/decimal.js';
import { hoursOf } from '../kernel/minutes.js';
import { MODES, type Mode } from '../making/mode.js';
import type { ClosedGarment, ClosedOperation } from './closed-garment.js';
import { usualOverrun } from './usual-overrun.js';

/** What one kind of operation takes in one mode. Minutes as decimals. */
export type OperationLesson = {
  readonly kind: string;
  readonly mode: Mode;
  /** As the newest garment names it. */
  readonly name: string;
  /** Garments it was done in. */
  readonly garments: number;
  readonly typical: number;
  /** The next one, even, 4 in 5 and 9 in 10. */
  readonly even: number;
  readonly fourInFive: number;
  readonly nineInTen: number;
  /** Sums over the garments where it was planned and done. */
  readonly plannedMinutes: number;
  readonly actualMinutes: number;
  /** Geometric mean of actual ÷ planned over the same. */
  readonly overrun: { readonly garments: number; readonly ratio: Decimal } | undefined;
};

/**
 * What each kind of operation takes, hand, machine and press told apart, by the closed form of true hours without a guess. The minutes of
 * one garment are added up first, so that two rows of one kind count as one garment.
 *
 * @param closed closed garments, of one type or of any
 * @returns the kinds that take most minutes first
 * @see trueHours; test/domain/lessons/what-was-made.test.ts
 */
export const operationLessons = (closed: readonly ClosedGarment[]): OperationLesson[] => {
  const found = new Map<string, Found>();
  for (const { operations } of closed) {
    const inGarment = new Map<string, Found['times'][number]>();
    for (const one of operations) {
      const key = `${one.kind} ${one.mode}`;
      const sum = inGarment.get(key) ?? { planned: 0, actual: 0 };
      inGarment.set(key, {
        planned: sum.planned + one.plannedMinutes,
        actual: sum.actual + one.actualMinutes,
      });
      found.set(key, { of: one, times: found.get(key)?.times ?? [] });
    }
    for (const [key, sum] of inGarment) if (sum.actual > 0) found.get(key)?.times.push(sum);
  }
  return [...found.values()]
    .filter(({ times }) => times.length > 0)
    .map(lessonOf)
    .sort((a, b) => b.actualMinutes - a.actualMinutes || (a.kind < b.kind ? -1 : 1));
};

type Found = { readonly of: ClosedOperation; readonly times: { planned: number; actual: number }[] };

const lessonOf = ({ of: { kind, mode, name }, times }: Found): OperationLesson => {
  const { typical, next } = trueHours({ hours: near(times.map(({ actual }) => actual)) });
  const both = times.filter(({ planned }) => planned > 0);
  return {
    kind,
    mode,
    name,
    garments: times.length,
    typical: typical.middle,
    even: next['0.5'],
    fourInFive: next['0.8'],
    nineInTen: next['0.9'],
    plannedMinutes: both.reduce((sum, { planned }) => sum + planned, 0),
    actualMinutes: both.reduce((sum, { actual }) => sum + actual, 0),
    overrun: usualOverrun(
      both.map(({ planned, actual }) => ({ hours: hoursOf(actual), plannedHours: hoursOf(planned) })),
    ),
  };
};

/** Minutes of one mode in closed garments. */
export type ModeLesson = {
  readonly mode: Mode;
  readonly garments: number;
  readonly plannedMinutes: number;
  readonly actualMinutes: number;
};

/**
 * Hand against machine against press: minutes planned and taken in each mode, all garments together.
 *
 * @param closed closed garments, of one type or of any
 * @returns whole minutes, in the order of `MODES`; modes nobody used are left out
 */
export const modeLessons = (closed: readonly ClosedGarment[]): ModeLesson[] =>
  MODES.map((mode) => {
    const inMode = closed.map(({ operations }) => operations.filter((one) => one.mode === mode));
    const sum = (of: (one: ClosedOperation) => number): number =>
      inMode.flat().reduce((all, one) => all + of(one), 0);
    return {
      mode,
      garments: inMode.filter((operations) => operations.some(({ actualMinutes }) => actualMinutes > 0))
        .length,
      plannedMinutes: sum(({ plannedMinutes }) => plannedMinutes),
      actualMinutes: sum(({ actualMinutes }) => actualMinutes),
    };
  }).filter(({ plannedMinutes, actualMinutes }) => plannedMinutes + actualMinutes > 0);

/** What each kind of operation is called, as the newest garment names it. */
export const namesOfKinds = (closed: readonly ClosedGarment[]): ReadonlyMap<string, string> =>
  new Map(closed.flatMap(({ operations }) => operations.map(({ kind, name }) => [kind, name] as const)));
