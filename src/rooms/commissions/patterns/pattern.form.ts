import { z } from 'zod';
import { line, optionalLine, optionalLines, yesNo } from '../../../web/fields/fields.js';

/** A pattern that is hung up; its name is the garment's where none is said. */
export const HungFields = z.strictObject({
  name: optionalLine(200),
  hook: line('Where does it hang? Write the hook, drawer or tube.', 100),
  notes: optionalLines(2000),
});
export type HungSaid = z.output<typeof HungFields>;

/** Which pattern a garment is cut from. */
export const CutFromForm = z.strictObject({
  pattern: line('Choose the pattern.', 60),
  leaveOutDrafting: yesNo(),
});
export const CutFromSent = z.strictObject({
  patternId: line('Send the id of the pattern.', 60),
  leaveOutDrafting: yesNo(),
});
