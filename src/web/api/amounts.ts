import { type CurrencyCode, exponentOf } from '../../domain/kernel/currency.js';
import type { Decimal } from '../../domain/kernel/decimal.js';
import { type FieldTrouble, Invalid } from '../../domain/kernel/errors.js';
import { Money } from '../../domain/kernel/money.js';

/** Numbers on their way to being money of one currency. */
export type Amounts = {
  /** The number as money; one that does not fit is noted with its field and stands as nought until `mustFit`. */
  money(value: Decimal, field: string): Money;
  /** The same, or undefined where none was given. */
  maybe(value: Decimal | undefined, field: string): Money | undefined;
  /** @throws Invalid naming every amount that did not fit */
  mustFit(): void;
};

const decimalsOf = (currency: CurrencyCode): string => {
  const exponent = exponentOf(currency);
  if (exponent === 0) return `${currency} has no decimals`;
  return `${currency} has ${exponent} decimals`;
};

/** Reads amounts of one currency and gathers those with more decimals than it has, so that all are named at once. */
export const amountsIn = (currency: CurrencyCode): Amounts => {
  const troubles: FieldTrouble[] = [];
  const money = (value: Decimal, field: string): Money => {
    if (value.decimalPlaces() <= exponentOf(currency)) return Money.rounded(value, currency);
    troubles.push({ field, text: `${decimalsOf(currency)}; this amount has more.` });
    return Money.zero(currency);
  };
  return {
    money,
    maybe: (value, field) => (value === undefined ? undefined : money(value, field)),
    mustFit: () => {
      const [first] = troubles;
      if (first) throw new Invalid(troubles.length === 1 ? first.text : SEVERAL, troubles);
    },
  };
};

const SEVERAL = 'Some fields need another look.';
