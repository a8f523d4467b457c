import { Decimal } from '../../../domain/kernel/decimal.js';
import { Money } from '../../../domain/kernel/money.js';
import type { DepositRule } from '../../../domain/papers/quote/deposit.js';
import type { DraftChoices } from '../../../domain/papers/quote/draft-choices.js';
import type { PriceParts } from '../../../domain/papers/quote/quote-difference.js';
import type { QuoteDraft } from '../../../domain/papers/quote/quote-paper.js';

/** A document as JSON keeps it: decimals and amounts as text. */
export type Kept<T> = T extends Decimal | Money
  ? string
  : T extends readonly (infer E)[]
    ? Kept<E>[]
    : T extends object
      ? { [K in keyof T]: Kept<T[K]> }
      : T;

/** Any value of ours as JSON: money and decimals as plain numerals, maps as objects. */
export const documentText = (value: unknown): string =>
  JSON.stringify(value, (_, one: unknown) => (one instanceof Map ? Object.fromEntries(one) : one));

const decimal = (text: string | undefined): Decimal | undefined =>
  text === undefined ? undefined : new Decimal(text);

export const choicesOf = (text: string, currency: string): DraftChoices => {
  const kept = JSON.parse(text) as Kept<DraftChoices>;
  const money = (amount: string): Money => Money.rounded(new Decimal(amount), currency);
  return {
    ...kept,
    garments: kept.garments.map((garment) => ({ ...garment, fittings: garment.fittings })),
    options: kept.options.map((option) => ({
      ...option,
      garmentId: option.garmentId,
      price: money(option.price),
    })),
    hourPrice: kept.hourPrice === undefined ? undefined : money(kept.hourPrice),
    validUntil: kept.validUntil,
    depositShare: new Decimal(kept.depositShare),
    depositAmount: kept.depositAmount === undefined ? undefined : money(kept.depositAmount),
  };
};

const depositOf = (kept: Kept<DepositRule>, money: (amount: string) => Money): DepositRule => {
  switch (kept.rule) {
    case 'none':
      return { rule: 'none' };
    case 'amount':
      return { rule: 'amount', amount: money(kept.amount) };
    case 'share':
      return { rule: 'share', share: new Decimal(kept.share) };
    case 'materials-and-labour':
      return { rule: 'materials-and-labour', labourShare: new Decimal(kept.labourShare) };
  }
};

/** What an issued quote was made of, read back in its own currency. */
export const quoteDraftOf = (kept: Kept<QuoteDraft>): QuoteDraft => {
  const { currency } = kept;
  const money = (amount: string): Money => Money.parse(amount, currency);
  const { hourPrice, discount, options, deposit, garments, otherLines: _, charges: __, ...rest } = kept;
  return {
    ...(rest as Omit<QuoteDraft, 'garments'>),
    garments: garments.map(({ price, rate, materials, labour, ...garment }) => ({
      ...garment,
      price: money(price),
      rate: decimal(rate),
      ...(materials === undefined ? {} : { materials: money(materials) }),
      ...(labour === undefined ? {} : { labour: money(labour) }),
    })),
    ...(hourPrice === undefined ? {} : { hourPrice: money(hourPrice) }),
    ...(discount ? { discount: { ...discount, amount: money(discount.amount) } } : {}),
    options: (options ?? []).map(({ price, rate, ...option }) => ({
      ...option,
      price: money(price),
      rate: decimal(rate),
    })),
    ...(deposit ? { deposit: depositOf(deposit, money) } : {}),
  };
};

export const pricePartsOf = (kept: Kept<PriceParts>, currency: string): PriceParts => ({
  net: Money.parse(kept.net, currency),
  time: Money.parse(kept.time, currency),
  minutes: new Decimal(kept.minutes),
  materials: Money.parse(kept.materials, currency),
  expenses: Money.parse(kept.expenses, currency),
});
