import { z } from 'zod';
import { ANSWERS } from '../../../../domain/papers/quote/quote-answer.js';
import { date, line, oneOf, optionalLine, optionalLines } from '../../../../web/fields/fields.js';
import type { Typed } from '../../../../web/forms/typed.js';
import type { AnswerSaid } from './answer-quote.js';

const said = {
  answer: oneOf(ANSWERS, 'Say whether it was accepted or declined.'),
  answeredOn: date('Give the day of the answer.'),
  byWhom: line('Say who answered.', 400),
  how: optionalLine(200),
  words: optionalLines(2000),
};

/** An answer as programs send it: `taken` names garments and options; left out, the whole was accepted. */
export const AnswerSent = z
  .strictObject({
    ...said,
    taken: z.array(z.string()).max(40, 'At most 40 of these.').optional(),
    afterItLapsed: z.boolean().default(false),
  })
  .transform(({ afterItLapsed, taken, ...rest }): { said: AnswerSaid; sure: boolean } => ({
    said: { ...rest, taken },
    sure: afterItLapsed,
  }));

/** An answer as the form sends it: a tick for each garment and option. */
export const AnswerForm = z.strictObject(said);

/** Splits the ticks from what was typed. A form on which everything is ticked says so by naming it all. */
export const readTicks = (typed: Typed): { rest: Record<string, string>; taken: string[] } => ({
  rest: Object.fromEntries(Object.entries(typed).filter(([name]) => !name.startsWith('taken.'))),
  taken: Object.entries(typed)
    .filter(([name, value]) => name.startsWith('taken.') && value === 'yes')
    .map(([name]) => name.slice('taken.'.length)),
});

/** Why an answer is taken back. */
export const CorrectionFields = z.strictObject({
  reason: line('Say why the answer is taken back.', 1000),
});
