import { z } from 'zod';
import type { StudioIdentity } from '../../domain/house/studio.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { amountIn, QUANTITY_UNITS, Quantity, type QuantityUnit } from '../../domain/kernel/quantity.js';
import { NO_LENGTH, type TypedLength } from '../../domain/stock/material.js';
import { type FieldKit, sentKit, typedAs, typedKit } from '../../web/fields/kits.js';
import { quantityInWords, readCloth } from '../../web/words/cloth.js';
import { readLength } from '../../web/words/lengths.js';
import { decimalSignOf, numeralText } from '../../web/words/numeral.js';
import { mapReading, type Reading, refused, understood } from '../../web/words/reading.js';

/** The most of one thing a workroom holds. */
const MOST = 100_000;

/** Fields of the cloth room, read as people type them or as programs send them. */
export type StockFields = {
  readonly kit: FieldKit;
  /** So much, in the material's own unit; above 0. */
  quantity(unit: QuantityUnit, missing: string): z.ZodType<Decimal>;
  /** A width or repeat with its unit, or nothing. */
  length(): z.ZodType<TypedLength>;
};

const decimalOf = (mm: string): Decimal => {
  const [above = '0', below] = mm.split('/');
  return below === undefined ? new Decimal(above) : new Decimal(above).div(below).toDecimalPlaces(6);
};

/** Reads a width as typed: `150 cm`, `58 in`. */
export const readWidth = (typed: string, preferred: 'cm' | 'in'): Reading<TypedLength> =>
  mapReading(readLength(typed, { preferred }), ({ mm, shown }) => ({ shown, mm: decimalOf(mm).toFixed() }));

/** Reads a quantity of one material; a bare number is in its own unit, yards and metres turn into each other. */
export const readQuantityIn = (
  typed: string,
  identity: StudioIdentity,
  unit: QuantityUnit,
  least = 'above',
): Reading<Decimal> => {
  const reading = readCloth(typed, { ...identity, clothUnit: unit });
  if (reading.kind !== 'ok') return reading as Reading<Decimal>;
  const said = reading.value.quantity;
  const amount = amountIn(said.amount, said.unit, unit);
  if (amount === undefined) return refused(`This is counted in ${QUANTITY_UNITS[unit].words}.`);
  if (least === 'above' && amount.lte(0)) return refused('A quantity here must be above 0.');
  return understood(amount.toDecimalPlaces(6));
};

const length = ({ lengthUnit }: StudioIdentity): z.ZodType<TypedLength> =>
  typedAs((typed) => readWidth(typed, lengthUnit)).transform((said) => said ?? NO_LENGTH);

export const typedFields = (identity: StudioIdentity): StockFields => ({
  kit: typedKit(identity),
  quantity: (unit, missing) =>
    typedAs((typed) => readQuantityIn(typed, identity, unit), missing) as z.ZodType<Decimal>,
  length: () => length(identity),
});

export const sentFields = (identity: StudioIdentity): StockFields => {
  const kit = sentKit(identity.currency);
  return {
    kit,
    quantity: (_, missing) =>
      kit
        .number(missing, { most: MOST })
        .refine((amount) => amount.gt(0), 'A quantity here must be above 0.'),
    length: () => length(identity),
  };
};

/** A quantity of a material in words: `3.2 m`. */
export const inWords = (amount: Decimal, unit: QuantityUnit, locale: string): string =>
  quantityInWords(new Quantity(amount, unit), locale);

/** A unit as it stands behind a field: `m`, `pieces`. */
export const unitInWords = (unit: QuantityUnit): string =>
  unit === 'piece' || unit === 'pair' || unit === 'set' ? QUANTITY_UNITS[unit].words : unit;

/** Money for one, in as many decimals as it needs and never fewer than two: `46.00`, `49.4269`. */
export const rateInWords = (rate: Decimal, locale: string): string => {
  const shown = rate.toDecimalPlaces(4);
  return numeralText(shown, decimalSignOf(locale), Math.max(2, shown.decimalPlaces()));
};
