import { Decimal } from '../../domain/kernel/decimal.js';
import type { Money } from '../../domain/kernel/money.js';
import {
  METRES_PER_YARD,
  QUANTITY_UNITS,
  Quantity,
  type QuantityUnit,
} from '../../domain/kernel/quantity.js';
import { foldTyped, quoted } from '../../domain/measuring/typed-text.js';
import { type MoneyManner, readMoney } from './amounts.js';
import { decimalSignOf, readFractionText, readNumeral } from './numeral.js';
import { asked, nothingTyped, type Reading, refused, understood } from './reading.js';

/** A quantity of material as typed, with a unit price where one was said (`3.2m @ 46`). */
export type ClothEntry = {
  readonly typed: string;
  /** In the unit typed. */
  readonly quantity: Quantity;
  /** The same in metres, exact, where it is a length. */
  readonly metres?: Decimal;
  /** For one of the unit typed. */
  readonly unitPrice?: Money;
};

/** How a studio writes quantities: `clothUnit` is taken for a bare number. */
export type ClothManner = MoneyManner & { readonly clothUnit: QuantityUnit };

const TYPED_AS: Readonly<Record<string, string>> = {
  m: 'm metre metres meter meters mtr',
  cm: 'cm centimetre centimetres centimeter centimeters',
  yd: 'yd yds yard yards',
  m2: 'm2 m² sqm',
  piece: 'piece pieces pc pcs each',
  pair: 'pair pairs pr',
  set: 'set sets',
  g: 'g gram grams',
  kg: 'kg kilo kilos kilogram kilograms',
  hour: 'h hour hours',
};
const UNITS = new Map(
  Object.entries(TYPED_AS).flatMap(([unit, words]) =>
    words.split(' ').map((word): [string, string] => [word, unit]),
  ),
);
const QUANTITY = /^([\d.,/ '-]*\d) ?([\p{L}²][\p{L}²2]*)?\.?$/u;
const MOST = new Decimal(100_000);
const HELP = 'Write it like 3.2 m, 2 3/4 yd or 12 pieces.';

const readAmount = (
  text: string,
  manner: ClothManner,
): { value: Decimal; isFraction: boolean; isSure: boolean } | undefined => {
  const fraction = readFractionText(text);
  if (fraction) return { value: fraction, isFraction: true, isSure: true };
  const numeral = readNumeral(text, decimalSignOf(manner.locale));
  // `3,2 m` can only mean decimals; only a comma or point before three figures may group.
  return (
    numeral && { value: numeral.value, isFraction: false, isSure: numeral.isSure || !/[.,]\d{3}$/.test(text) }
  );
};

const inMetres = (quantity: Quantity): Decimal | undefined => {
  if (quantity.unit === 'm') return quantity.amount;
  return quantity.unit === 'yd' ? quantity.amount.times(METRES_PER_YARD) : undefined;
};

const readQuantity = (typed: string, text: string, manner: ClothManner): Reading<ClothEntry> => {
  if (text.startsWith('-')) return refused('A quantity cannot be less than nought.');
  const [, figures = '', word] = QUANTITY.exec(text) ?? [];
  const amount = readAmount(figures, manner);
  if (!amount) return refused(`${quoted(typed)} is not a quantity. ${HELP}`);
  const unit = word === undefined ? manner.clothUnit : UNITS.get(word);
  if (unit === undefined) return refused(`${quoted(word ?? '')} is not a unit here. ${HELP}`);
  if (word === undefined && amount.isFraction && unit === 'm')
    return asked(`${figures}: metres or yards?`, [
      { words: `${figures} metres`, typed: `${figures} m` },
      { words: `${figures} yards`, typed: `${figures} yd` },
    ]);
  if (!amount.isSure) {
    const plain = `${amount.value.toFixed()} ${unit}`;
    return asked(`Did you mean ${plain}?`, [{ words: plain, typed: plain }]);
  }
  const quantity =
    unit === 'cm'
      ? new Quantity(amount.value.div(100), 'm')
      : new Quantity(amount.value, unit as QuantityUnit);
  if (quantity.amount.gt(MOST)) return refused(`${quoted(typed)} is more than a workroom holds. ${HELP}`);
  const metres = inMetres(quantity);
  return understood({ typed, quantity, ...(metres && { metres }) });
};

/**
 * Reads a quantity of material, with a price for one where `@` or `at` says so: `2 3/4 yd`, `3.2m @ 46`, `12 pieces`.
 *
 * @returns the quantity in the unit typed (centimetres become metres); yards also in metres, 0.9144 exactly
 * @see test/web/words/cloth.test.ts
 */
export const readCloth = (typed: string, manner: ClothManner): Reading<ClothEntry> => {
  const text = foldTyped(typed);
  if (text === '') return nothingTyped;
  if (text.length > 60) return refused(`This is too long for a quantity. ${HELP}`);
  const [before = '', price, ...more] = text.split(/ ?@ ?| at /);
  if (more.length > 0) return refused(`${quoted(typed)} has two prices. Keep one.`);
  const read = readQuantity(typed, before.trim(), manner);
  if (price === undefined || read.kind === 'empty' || read.kind === 'refuse') return read;
  if (read.kind === 'ask') {
    const choices = read.choices.map(({ words, typed: text }) => ({ words, typed: `${text} @ ${price}` }));
    return asked(read.sentence, choices);
  }
  const money = readMoney(price, manner);
  if (money.kind === 'ok') return understood({ ...read.value, unitPrice: money.value });
  if (money.kind === 'empty') return refused(`There is no price after @. Write it like 3.2m @ 46.`);
  if (money.kind === 'refuse') return money;
  return asked(
    money.sentence,
    money.choices.map((choice) => ({ ...choice, typed: `${before} @ ${choice.typed}` })),
  );
};

const ONE: Readonly<Partial<Record<QuantityUnit, string>>> = {
  piece: 'piece',
  pair: 'pair',
  set: 'set',
  hour: 'hour',
};

/** A quantity in words: `3.2 m`, `2.75 yd`, `12 pieces`, `1 pair`; at most four decimals. */
export const quantityInWords = (quantity: Quantity, locale = 'en-GB'): string => {
  const figures = quantity.amount.toDecimalPlaces(4).toFixed().replace('.', decimalSignOf(locale));
  const single = ONE[quantity.unit];
  if (single === undefined) return `${figures} ${quantity.unit === 'm2' ? 'm²' : quantity.unit}`;
  return `${figures} ${quantity.amount.eq(1) ? single : QUANTITY_UNITS[quantity.unit].words}`;
};
