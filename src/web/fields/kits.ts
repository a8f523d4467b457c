import { z } from 'zod';
import type { CurrencyCode } from '../../domain/kernel/currency.js';
import { type Decimal, readDecimal } from '../../domain/kernel/decimal.js';
import { Trouble } from '../../domain/kernel/errors.js';
import { Money } from '../../domain/kernel/money.js';
import type { Share } from '../../domain/kernel/share.js';
import { foldTyped } from '../../domain/measuring/typed-text.js';
import { type MoneyManner, readMoney } from '../words/amounts.js';
import { decimalSignOf, readFractionText, readNumeral } from '../words/numeral.js';
import { fieldAnswer, nothingTyped, type Reading, refused, understood } from '../words/reading.js';
import { type PercentField, readPercent } from '../words/shares.js';

/** The bounds of a number, inclusive. */
export type NumberField = { readonly least?: number; readonly most: number };

/**
 * Fields of figures, read either as people type them (`1,234.50`, `62 %`, `2 1/2`) or as programs send them (`"1234.50"`,
 * `"0.62"`, `2.5`). A form and the JSON interface share one schema by building it with one or the other kit.
 */
export type FieldKit = {
  readonly currency: CurrencyCode;
  money(missing: string): z.ZodType<Money>;
  optionalMoney(): z.ZodType<Money | undefined>;
  /** Bounds in percent. */
  share(missing: string, field?: PercentField): z.ZodType<Share>;
  number(missing: string, field: NumberField): z.ZodType<Decimal>;
  optionalNumber(field: NumberField): z.ZodType<Decimal | undefined>;
};

/** A field of text read by one of the house's readers; what it asks or refuses comes back beside the field. */
export const typedAs = <T>(read: (typed: string) => Reading<T>, missing?: string) =>
  z
    .string()
    .default('')
    .transform((typed, ctx): T | undefined => {
      const { value, trouble } = fieldAnswer('', read(typed), missing);
      if (!trouble) return value;
      const instead = trouble.choices.map((choice) => `“${choice.typed}”`).join(' or ');
      ctx.addIssue({ code: 'custom', message: instead ? `${trouble.text} Write ${instead}.` : trouble.text });
      return z.NEVER;
    });

const bounds = ({ least = 0, most }: NumberField): string =>
  `Write a number from ${least} to ${most.toLocaleString('en')}, such as 2 or 2.5.`;

const within = (value: Decimal | undefined, field: NumberField): Reading<Decimal> =>
  value?.gte(field.least ?? 0) && value.lte(field.most) ? understood(value) : refused(bounds(field));

const readNumber = (typed: string, locale: string, field: NumberField): Reading<Decimal> => {
  const text = foldTyped(typed);
  if (text === '') return nothingTyped;
  if (text.length > 40) return refused(bounds(field));
  // A bare comma is a decimal sign here, since these numbers are small: 37,5 hours.
  const numeral = readNumeral(text, decimalSignOf(locale));
  return within(readDecimal(text.replace(',', '.')) ?? readFractionText(text) ?? numeral?.value, field);
};

/** Reads what people type into forms. */
export const typedKit = (manner: MoneyManner): FieldKit => ({
  currency: manner.currency,
  money: (missing) => typedAs((typed) => readMoney(typed, manner), missing) as z.ZodType<Money>,
  optionalMoney: () => typedAs((typed) => readMoney(typed, manner)),
  share: (missing, field) => typedAs((typed) => readPercent(typed, field), missing) as z.ZodType<Share>,
  number: (missing, field) =>
    typedAs((typed) => readNumber(typed, manner.locale, field), missing) as z.ZodType<Decimal>,
  optionalNumber: (field) => typedAs((typed) => readNumber(typed, manner.locale, field)),
});

const readSent = <T>(
  said: string | number,
  ctx: z.RefinementCtx,
  missing: string,
  read: (text: string) => Reading<T>,
): T => {
  const reading = read(String(said));
  if (reading.kind === 'ok') return reading.value;
  ctx.addIssue({ code: 'custom', message: reading.kind === 'refuse' ? reading.sentence : missing });
  return z.NEVER;
};

const sent = <T>(missing: string, read: (text: string) => Reading<T>) =>
  z.union([z.string(), z.number()], missing).transform((said, ctx): T => readSent(said, ctx, missing, read));

/** None is '' too, since that is how an answer shows it: what was read can be sent back as it is. */
const sentOrNone = <T>(missing: string, read: (text: string) => Reading<T>) =>
  z
    .union([z.string(), z.number()], missing)
    .transform((said, ctx): T | undefined => (said === '' ? undefined : readSent(said, ctx, missing, read)))
    .optional();

const readAmount =
  (currency: CurrencyCode) =>
  (text: string): Reading<Money> => {
    try {
      const money = Money.parse(text, currency);
      return money.isNegative() ? refused('An amount here cannot be less than nought.') : understood(money);
    } catch (trouble) {
      if (trouble instanceof Trouble) return refused(trouble.message);
      throw trouble;
    }
  };

const readShare =
  ({ least = 0, most = 100, below }: PercentField = {}) =>
  (text: string): Reading<Share> => {
    const share = readDecimal(text);
    const inside =
      share?.gte(least / 100) && share.lte(most / 100) && (below === undefined || share.lt(below / 100));
    return share && inside
      ? understood(share)
      : refused(
          `Send a share such as "0.15", from ${least / 100} ${below === undefined ? `to ${most / 100}` : `and below ${below / 100}`}.`,
        );
  };

/** Reads what programs send: decimal strings, or JSON numbers. */
export const sentKit = (currency: CurrencyCode): FieldKit => {
  const number = (field: NumberField) => (text: string) => within(readDecimal(text), field);
  return {
    currency,
    money: (missing) => sent(missing, readAmount(currency)),
    optionalMoney: () => sentOrNone('Send an amount such as "31.50".', readAmount(currency)),
    share: (missing, field) => sent(missing, readShare(field)),
    number: (missing, field) => sent(missing, number(field)),
    optionalNumber: (field) => sentOrNone('Send a decimal such as "2.5".', number(field)),
  };
};
