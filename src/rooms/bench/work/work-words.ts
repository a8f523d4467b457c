import { AWAY_WORDS, type WorkedOn } from '../../../domain/bench/bench-entry.js';
import { causeRule } from '../../../domain/costing/cause-rules.js';
import type { Cause } from '../../../domain/costing/causes.js';
import { STAGE_WORDS } from '../../../domain/making/mode.js';
import { capitalised } from '../../../web/words/counts.js';

/** What was worked on, in words: the operation, the whole stage, or the kind of time without a garment. */
export const whatInWords = ({ name, stage, away, operationId, kind }: WorkedOn): string => {
  if (away) return capitalised(name || AWAY_WORDS[away]);
  if (!operationId && stage && kind === '') return `${STAGE_WORDS[stage]}, the whole stage`;
  return capitalised(name);
};

/** What and on which garment: `“Pad-stitch the lapels” on the jacket`. */
export const workInWords = (work: WorkedOn & { readonly garmentName: string }): string =>
  work.garmentId ? `“${whatInWords(work)}” on the ${work.garmentName}` : `“${whatInWords(work)}”`;

/** Why it was not in the plan, in a maker's words; empty for planned work. */
export const causeInWords = (cause: Cause | undefined): string => (cause ? causeRule(cause).words : '');
