import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { MeasuredValue, MeasurementSet } from '../../../domain/measuring/measurement-set.js';
import type { KeptSet } from '../../../storage/books/measuring/measurement-book.js';

/** The sets that stand: all but those that were taken again to mend a slip. */
export const standing = (sets: readonly KeptSet[]): KeptSet[] =>
  sets.filter(({ id }) => !sets.some(({ insteadOf }) => insteadOf === id));

/** What a client measured last, dimension by dimension, each with its day. */
export type LastTaken = {
  /** All of it as one set, to compare with; none when nothing was ever measured. */
  readonly set: MeasurementSet | undefined;
  readonly on: ReadonlyMap<string, CalendarDate>;
};

/**
 * The last value of each dimension: one that was left out of the newest set is looked for further back.
 *
 * @param sets oldest first
 */
export const lastTaken = (sets: readonly KeptSet[]): LastTaken => {
  const values = new Map<string, MeasuredValue>();
  const on = new Map<string, CalendarDate>();
  for (const set of sets) {
    for (const value of set.values) {
      values.set(value.dimension, value);
      on.set(value.dimension, set.takenOn);
    }
  }
  const newest = sets.at(-1);
  return { set: newest && { ...newest, values: [...values.values()] }, on };
};

/** What stood when a set was taken: everything earlier that was not mended, and not the set that it mends itself. */
export const earlierThan = (
  sets: readonly KeptSet[],
  set: Pick<KeptSet, 'takenOn' | 'insteadOf'> & { readonly id?: string },
): KeptSet[] =>
  standing(sets).filter(
    ({ id, takenOn }) =>
      id !== set.id &&
      id !== set.insteadOf &&
      (takenOn < set.takenOn || (takenOn === set.takenOn && (set.id === undefined || id < set.id))),
  );
