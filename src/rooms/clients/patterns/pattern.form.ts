import { z } from 'zod';
import type { Pattern } from '../../../domain/fitting/pattern.js';
import { line, optionalDate, optionalLine, optionalLines } from '../../../web/fields/fields.js';

/** A pattern as it is corrected by hand. */
export const PatternFields = z.strictObject({
  name: line('Name the pattern.', 200),
  hook: line('Where does it hang? Write the hook, drawer or tube.', 100),
  lastCorrection: optionalLine(1000),
  correctedOn: optionalDate(),
  notes: optionalLines(2000),
});
export type PatternSaid = z.output<typeof PatternFields>;

/** A pattern as its form's fields. */
export const typedPattern = (pattern: Pattern): Record<string, string> => ({
  name: pattern.name,
  hook: pattern.hook,
  lastCorrection: pattern.lastCorrection,
  correctedOn: pattern.correctedOn ?? '',
  notes: pattern.notes,
});
