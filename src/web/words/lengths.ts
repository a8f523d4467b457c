import type { Difference } from '../../domain/measuring/difference.js';
import type { LengthEntry } from '../../domain/measuring/length-entry.js';

export { type LengthEntry, type LengthField, readLength } from '../../domain/measuring/length-entry.js';
export { showLength } from '../../domain/measuring/shown-length.js';

/** A measurement as it is shown back: in the unit typed, with the tailor's note. */
export const lengthInWords = (entry: LengthEntry): string => entry.shown;

/** What changed since last time: `+1/2 in`, `as last time`, or `first time`. */
export const differenceInWords = ({ mm, shown }: Difference): string => {
  if (mm === undefined || shown === undefined) return 'first time';
  return mm === '0' ? 'as last time' : shown;
};

/** A measurement as a field takes it back without a question: what is shown, with its unit. */
export const lengthForField = ({ shown }: LengthEntry): string => shown.replace('−', '-');
