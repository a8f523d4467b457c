import { z } from 'zod';
import { type CurrencyCode, exponentOf, isCurrency } from '../../domain/kernel/currency.js';
import type { Decimal } from '../../domain/kernel/decimal.js';

/** One question that is worked out and forgotten: what may be sent, bodies that work, and the answer. */
export type Question<S extends z.ZodType> = {
  readonly schema: S;
  readonly summary: string;
  readonly examples: Readonly<Record<string, unknown>>;
  /** @param currency the studio's, for a question that names none */
  readonly answer: (asked: z.output<S>, currency: CurrencyCode) => unknown;
};

export const question = <S extends z.ZodType>(asked: Question<S>): Question<S> => asked;

/** The currency of a question; the studio's when left out. */
export const currency = () =>
  z
    .string('Give a currency such as "EUR".')
    .refine(isCurrency, 'This is not a currency code. Use three letters such as EUR or GBP.')
    .optional()
    .meta({ description: 'ISO 4217 code; the studio’s own when left out.', examples: ['EUR'] });

/** A share or an index out: at most twelve decimals, no trailing noughts. */
export const shareText = (share: Decimal | null): string | null =>
  share === null ? null : share.toDecimalPlaces(12).toFixed();

/** Money for one unit out: at least the currency's decimals, more where there are more. */
export const unitText = (unit: Decimal, of: CurrencyCode): string => {
  const cut = unit.toDecimalPlaces(12);
  return cut.toFixed(Math.max(cut.decimalPlaces(), exponentOf(of)));
};

/** Minutes out: a JSON number. */
export const minutesOut = (minutes: Decimal): number => minutes.toDecimalPlaces(6).toNumber();
