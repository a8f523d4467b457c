import { z } from 'zod';
import { isCalendarDate } from '../../domain/kernel/calendar-date.js';
import { isCurrency } from '../../domain/kernel/currency.js';

/*
 * The fields that forms and the JSON interface have in common. Each accepts what a form sends (text) and what a program
 * sends (text, or a JSON number or boolean where that is natural), and refuses with a sentence.
 */

const tooLong = (most: number): string => `At most ${most} characters.`;

/** One line of words that must be there. */
export const line = (missing: string, most = 400) =>
  z
    .string(missing)
    .transform((text) => text.replace(/\s+/g, ' ').trim())
    .pipe(z.string().min(1, missing).max(most, tooLong(most)));

/** One line of words that may be left empty. */
export const optionalLine = (most = 400) =>
  z
    .string()
    .transform((text) => text.replace(/\s+/g, ' ').trim())
    .pipe(z.string().max(most, tooLong(most)))
    .default('');

/** Several lines that may be left empty. */
export const optionalLines = (most = 4000) =>
  z
    .string()
    .transform((text) => text.replace(/[ \t]+$/gm, '').trim())
    .pipe(z.string().max(most, tooLong(most)))
    .default('');

/** A date that exists, or none. */
export const optionalDate = (wrong = 'Write the date as year-month-day, such as 2026-03-02.') =>
  z
    .string()
    .trim()
    .refine((text) => text === '' || isCalendarDate(text), wrong)
    .transform((text) => (text === '' ? undefined : text))
    .optional();

/** A date that exists. */
export const date = (missing = 'Give a date.') =>
  z
    .string(missing)
    .trim()
    .min(1, { error: missing, abort: true })
    .refine(isCalendarDate, 'Write the date as year-month-day, such as 2026-03-02.');

/** A tick: `yes` from a form, true from a program. */
export const yesNo = () =>
  z
    .union([z.boolean(), z.enum(['yes', 'no', ''])])
    .transform((said) => said === true || said === 'yes')
    .default(false);

/** One of a few words. */
export const oneOf = <const W extends readonly [string, ...string[]]>(choices: W, missing = 'Choose one.') =>
  z.enum(choices, missing);

/** A whole number within bounds. */
export const whole = (least: number, most: number, missing = 'Give a whole number.') =>
  z
    .union(
      [
        z.number(),
        z
          .string()
          .trim()
          .regex(/^-?\d{1,9}$/, missing),
      ],
      missing,
    )
    .transform(Number)
    .pipe(z.number().int(missing).min(least, `At least ${least}.`).max(most, `At most ${most}.`));

export const currency = () =>
  z
    .string('Choose a currency.')
    .transform((text) => text.trim().toUpperCase())
    .refine(isCurrency, 'This is not a currency code. Use three letters such as EUR or GBP.');
