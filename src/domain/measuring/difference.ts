import type { LengthEntry } from './length-entry.js';
import { type MeasurementSet, takenIn } from './measurement-set.js';
import { exactDifference, showLength } from './shown-length.js';

/** One dimension beside what it was last time. */
export type Difference = {
  readonly dimension: string;
  readonly now: LengthEntry;
  readonly before?: LengthEntry;
  /** now − before, exact millimetres; absent when it was not measured last time. */
  readonly mm?: string;
  /** In the unit typed now, signed: `+1/2 in`, `−1.2 cm`; `0 cm` when nothing changed; absent like `mm`. */
  readonly shown?: string;
};

/**
 * What changed since the last set, value by value, in the order of this set.
 *
 * @param set what was measured now
 * @param last what was measured before, if anything was
 * @returns differences in the unit each value was typed in; exact, except that the shown text has at most four decimals
 * @see test/domain/measuring/measurement-set.test.ts
 */
export const differences = (set: MeasurementSet, last: MeasurementSet | undefined): readonly Difference[] =>
  set.values.map(({ dimension, entry }) => {
    const before = last && takenIn(last, dimension)?.entry;
    if (!before) return { dimension, now: entry };
    const mm = exactDifference(entry.mm, before.mm);
    return { dimension, now: entry, before, mm, shown: showLength(mm, entry.unit, { signed: true }) };
  });
