import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { AWAY_KINDS } from '../../../domain/bench/bench-entry.js';
import { CAUSES } from '../../../domain/costing/causes.js';
import { MODES, STAGES } from '../../../domain/making/mode.js';
import { oneOf, optionalLine, yesNo } from '../../../web/fields/fields.js';

/** A key, or none. */
export const optionalKey = () => optionalLine(40).transform((id) => id || undefined);

/** One of a few words, or none. */
export const maybeOneOf = <const W extends readonly [string, ...string[]]>(choices: W, wrong: string) =>
  z
    .union([z.literal(''), oneOf(choices, wrong)], wrong)
    .transform((said) => said || undefined)
    .optional();

const instantOf = (text: string): string | undefined => {
  try {
    return Temporal.Instant.from(text).toString({ fractionalSecondDigits: 3 });
  } catch {
    return undefined;
  }
};

/** An instant as RFC 3339 writes it, or none. */
export const optionalInstant = () =>
  z
    .string()
    .trim()
    .max(40)
    .refine(
      (text) => text === '' || instantOf(text) !== undefined,
      'Write the instant like 2026-03-02T09:00:00Z.',
    )
    .transform((text) => instantOf(text))
    .optional();

/** What somebody says they work on: the same on a page's form and in JSON. */
export const workFields = {
  garment: optionalKey(),
  commission: optionalKey(),
  operation: optionalKey(),
  stage: maybeOneOf(STAGES, 'Choose a stage.'),
  what: optionalLine(200),
  mode: maybeOneOf(MODES, 'Choose how the minutes are spent.'),
  away: maybeOneOf(AWAY_KINDS, 'Choose what kind of time it was.'),
  cause: maybeOneOf(CAUSES, 'Say why it came up.'),
  extra: optionalKey(),
  everyTime: yesNo(),
};
