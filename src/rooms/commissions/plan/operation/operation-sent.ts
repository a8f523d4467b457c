import { z } from 'zod';
import { Decimal, readDecimal } from '../../../../domain/kernel/decimal.js';
import { Invalid } from '../../../../domain/kernel/errors.js';
import { MOST_OPERATIONS } from '../../../../domain/making/making-plan.js';
import { DRIVERS, MODES, STAGES } from '../../../../domain/making/mode.js';
import { type HandStitchSpec, type Operation, operation } from '../../../../domain/making/operation.js';
import { line, oneOf, optionalLine, yesNo } from '../../../../web/fields/fields.js';
import { kindOf } from '../add-line.js';
import { minutesOfSeam } from './operation.form.js';

const number = (most = 1_000_000) =>
  z.union([z.string(), z.number()], 'Send a number such as "2.5".').transform((said, ctx): Decimal => {
    const value = readDecimal(String(said));
    if (value && !value.isNegative() && value.lte(most)) return value;
    ctx.addIssue({ code: 'custom', message: `Send a number from 0 to ${most}.` });
    return z.NEVER;
  });

const fields = {
  name: line('What is to be done? Write a few words.', 200),
  kind: optionalLine(80),
  stage: oneOf(STAGES, 'Choose a stage.'),
  mode: oneOf(MODES, 'Choose a mode.'),
  modeShares: z.array(z.strictObject({ mode: oneOf(MODES), share: number(1) })).default([]),
  basting: yesNo(),
  driver: oneOf(DRIVERS).default('once'),
  quantity: number().optional(),
  fixedMinutes: number().optional(),
  minutesPerUnit: number().optional(),
  handStitch: z
    .strictObject({
      lengthMm: number(),
      stitchesPerCm: number(),
      stitchesPerMinute: number(),
      thread: z
        .strictObject({ perSeamLength: number(), lengthMm: number(), changeMinutes: number() })
        .optional(),
    })
    .transform(({ thread, ...seam }): HandStitchSpec => ({ ...seam, ...(thread ? { thread } : {}) }))
    .optional(),
  shownToClient: yesNo(),
  clientWording: optionalLine(400),
};

/** An operation as a program sends it: without minutes it still needs them; a hand seam reckons them. */
export const OperationSent = z.strictObject(fields);

/** A whole plan as a program sends it. */
export const PlanSent = z.strictObject({
  items: z
    .array(z.strictObject({ id: z.string().max(60).optional(), ...fields }))
    .max(MOST_OPERATIONS, `A plan holds at most ${MOST_OPERATIONS} operations.`),
});

/** A line added by its words; minutes, stage and mode where it names something new. */
export const LineSent = z.strictObject({
  line: line('What is to be done? Write a few words.', 200),
  minutes: number(600_000).optional(),
  stage: oneOf(STAGES).optional(),
  mode: oneOf(MODES).optional(),
  isNew: yesNo(),
});

/**
 * An operation as sent.
 *
 * @param present the one it changes; none for a new one
 * @param at the path troubles are named under
 * @throws Invalid naming every field at fault
 */
export const operationSent = (
  said: z.output<typeof OperationSent>,
  present: Operation | undefined,
  nextId: () => string,
  at = '',
): Operation => {
  const { handStitch, quantity, fixedMinutes, minutesPerUnit, kind, ...rest } = said;
  const under = (field: string): string => (at ? `${at}.${field}` : field);
  try {
    const reckoned = handStitch && minutesOfSeam(handStitch);
    const once = said.driver === 'once';
    const fixed = once && reckoned ? reckoned : fixedMinutes;
    const per = !once && reckoned ? reckoned : minutesPerUnit;
    const nought = new Decimal(0);
    const isAsBefore = present?.fixedMinutes.eq(fixed ?? nought) && present.minutesPerUnit.eq(per ?? nought);
    return operation({
      ...rest,
      id: present?.id ?? nextId(),
      kind: kind || present?.kind || kindOf(said.name),
      quantity: quantity ?? new Decimal(1),
      fixedMinutes: fixed ?? nought,
      minutesPerUnit: per ?? nought,
      needsMinutes: fixed === undefined && per === undefined,
      fromStartingValues: isAsBefore === true && present?.fromStartingValues === true,
      ...(present?.startingSpread ? { startingSpread: present.startingSpread } : {}),
      ...(handStitch ? { handStitch: handStitch } : {}),
    });
  } catch (error) {
    if (!(error instanceof Invalid)) throw error;
    throw new Invalid(
      error.message,
      error.fields.map(({ field, text }) => ({ field: under(field), text })),
    );
  }
};
