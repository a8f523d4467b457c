import { z } from 'zod';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import { QUANTITY_UNITS, type QuantityUnit } from '../../../domain/kernel/quantity.js';
import { MATERIAL_KINDS, type MaterialKind, METHOD_WORDS } from '../../../domain/stock/material.js';
import { STOCK_METHODS } from '../../../domain/stock/movements.js';
import type { MaterialWords } from '../../../storage/books/cloth-room/material-book.js';
import { line, oneOf, optionalLine, optionalLines, yesNo } from '../../../web/fields/fields.js';
import { capitalised } from '../../../web/words/counts.js';
import { typedFields } from '../stock-fields.js';

const KINDS = Object.keys(MATERIAL_KINDS) as [MaterialKind, ...MaterialKind[]];
/** Everything but hours can lie on a shelf. */
export const STOCK_UNITS = Object.keys(QUANTITY_UNITS).filter((unit) => unit !== 'hour') as [
  QuantityUnit,
  ...QuantityUnit[],
];

/** What is said about a material: the same fields on the page and in the JSON interface. */
export const MaterialFields = (identity: StudioIdentity) => {
  const { length } = typedFields(identity);
  return z.strictObject({
    name: line('What is it called?', 200),
    kind: oneOf(KINDS, 'Say what kind of material it is.'),
    unit: oneOf(STOCK_UNITS, 'Say what it is counted in.'),
    width: length(),
    fibres: optionalLine(400),
    care: optionalLines(1000),
    patternRepeat: length(),
    hasNap: yesNo(),
    supplierId: optionalLine(40).transform((id) => id || undefined),
    place: optionalLine(200),
    method: oneOf(STOCK_METHODS).default('lot'),
    notes: optionalLines(4000),
  }) satisfies z.ZodType<MaterialWords>;
};

/** A material as a form's fields. */
export const typedMaterial = (one: MaterialWords): Record<string, string> => ({
  name: one.name,
  kind: one.kind,
  unit: one.unit,
  width: one.width.shown,
  fibres: one.fibres,
  care: one.care,
  patternRepeat: one.patternRepeat.shown,
  hasNap: one.hasNap ? 'yes' : 'no',
  supplierId: one.supplierId ?? '',
  place: one.place,
  method: one.method,
  notes: one.notes,
});

export const KIND_CHOICES = KINDS.map((value) => ({ value, text: capitalised(MATERIAL_KINDS[value]) }));
export const UNIT_CHOICES = STOCK_UNITS.map((value) => ({ value, text: QUANTITY_UNITS[value].words }));
const METHOD_HINTS: Readonly<Record<(typeof STOCK_METHODS)[number], string>> = {
  lot: 'each piece keeps its own cost: cloth bought for one garment',
  'first-in-first-out': 'the oldest goes first: thread, canvas, linings',
  'weighted-average': 'all of it at one average cost: buttons, tape',
};
export const METHOD_CHOICES = STOCK_METHODS.map((value) => ({
  value,
  text: capitalised(METHOD_WORDS[value]),
  hint: METHOD_HINTS[value],
}));
