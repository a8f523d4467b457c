import { z } from 'zod';
import { isCalendarDate } from '../../domain/kernel/calendar-date.js';
import { Decimal, readDecimal } from '../../domain/kernel/decimal.js';

/*
 * Numbers of the JSON interface. Text is a plain numeral without exponent or grouping; a JSON number is taken by its
 * shortest decimal text, so that 0.15 is fifteen hundredths and not the binary fraction next to it.
 */

/** Digits before the point: money of thirteen digits is a slip of the hand, not a price. */
const MOST = new Decimal(10).pow(12);
const MOST_DECIMALS = 20;
const NUMERAL = '^[+-]?(\\d+(\\.\\d+)?|\\.\\d+)$';
const TOO_LARGE = 'This number is too large: at most twelve digits before the point.';

const read = (sent: string | number): Decimal | undefined =>
  typeof sent === 'number' ? new Decimal(sent) : readDecimal(sent);

/** Text or number into a decimal, each trouble with its own sentence. @param extra what else is wrong with it, if anything */
const numeral = (wrong: string, extra: (sent: string | number, value: Decimal) => string | undefined) =>
  z
    .union([z.string().regex(new RegExp(NUMERAL), wrong), z.number()], { error: wrong })
    .transform((sent, context): Decimal => {
      const value = read(sent);
      const trouble = !value
        ? wrong
        : value.abs().gte(MOST)
          ? TOO_LARGE
          : value.decimalPlaces() > MOST_DECIMALS
            ? `At most ${MOST_DECIMALS} decimals.`
            : extra(sent, value);
      if (trouble !== undefined) context.addIssue({ code: 'custom', message: trouble });
      return value ?? new Decimal(0);
    });

const BELOW = 'This cannot be below 0.';
const below = (value: Decimal): string | undefined => (value.lt(0) ? BELOW : undefined);

/** A quantity, share or factor, not negative: `"5.20"` or 0.15. */
export const quantity = () =>
  numeral('Give a number such as 5.20.', (_, value) => below(value)).meta({
    description: 'A decimal string or a number, not negative.',
    examples: ['5.20', 0.15],
  });

/** A quantity that may take away. */
export const signedQuantity = () =>
  numeral('Give a number such as 5.20 or -1.', () => undefined).meta({
    description: 'A decimal string or a number; negative where something is taken out.',
    examples: ['5.20', -1],
  });

const WHOLE_OR_TEXT = 'Write money with decimals as text, such as "31.50", so that nothing of it is lost.';

const ofMoney = (signed: boolean) => (sent: string | number, value: Decimal) =>
  typeof sent === 'number' && !value.isInteger()
    ? WHOLE_OR_TEXT
    : signed || !value.lt(0)
      ? undefined
      : 'An amount of money cannot be below 0 here.';

const MONEY = 'Give an amount such as "31.50".';

/** Money as text, or a whole amount as a number; `amountsIn(currency)` then minds the currency's decimals. */
export const money = () =>
  numeral(MONEY, ofMoney(false)).meta({
    description:
      'Money: a decimal string with at most the decimals of the currency, or a whole amount as a number.',
    examples: ['31.50', 12],
  });

/** Money that may be below nought. */
export const signedMoney = () =>
  numeral(MONEY, ofMoney(true)).meta({
    description: 'Money that may be negative: a decimal string, or a whole amount as a number.',
    examples: ['-0.01', '31.50'],
  });

/** Money for one of something (an hour, a metre): any number of decimals, never a fractional JSON number. */
export const rate = () =>
  numeral(MONEY, ofMoney(false)).meta({
    description: 'Money for one unit: a decimal string of any length, or a whole amount as a number.',
    examples: ['22.69', 46],
  });

const MINUTES = 'Give whole minutes such as 90.';
const MOST_MINUTES = 1_000_000_000;

/** Planned or worked minutes: whole, not negative. */
export const minutes = () =>
  numeral(MINUTES, (_, value) =>
    !value.isInteger() ? MINUTES : value.gt(MOST_MINUTES) ? 'At most 1,000,000,000 minutes.' : below(value),
  ).meta({ description: 'Whole minutes.', examples: [90] });

/** Minutes that come out of an estimate or a rate, and so may have decimals. */
export const decimalMinutes = () =>
  numeral('Give minutes such as 90 or "12.5".', (_, value) =>
    value.gt(MOST_MINUTES) ? 'At most 1,000,000,000 minutes.' : below(value),
  ).meta({ description: 'Minutes; decimals are welcome.', examples: [90, '12.5'] });

/** A name in one line. */
export const name = () =>
  z
    .string('Give a name.')
    .transform((text) => text.replace(/\s+/g, ' ').trim())
    .pipe(z.string().min(1, 'Give a name.').max(400, 'At most 400 characters.'))
    .meta({ examples: ['pad stitch lapels'] });

/** A date that exists, from 1900 to 2999. */
export const day = () =>
  z
    .string('Give a date such as 2026-03-02.')
    .refine(
      (text) => /^(19|2\d)/.test(text) && isCalendarDate(text),
      'Give a date from 1900 to 2999, written like 2026-03-02.',
    )
    .meta({ format: 'date', examples: ['2026-03-02'] });

/** A list with an upper end. */
export const list = <S extends z.ZodType>(of: S, most: number) =>
  z.array(of, 'Give a list.').max(most, `At most ${most} of these in one question.`);
