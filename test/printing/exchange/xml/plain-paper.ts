import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { Money } from '../../../../src/domain/kernel/money.js';
import { QUANTITY_UNITS, type QuantityUnit } from '../../../../src/domain/kernel/quantity.js';
import type { Paper } from '../../../../src/domain/papers/model/paper.js';

/** A paper as words by its business terms: what a reader of the XML has to find again. */
export type PlainPaper = { readonly [term: string]: string | PlainPaper | readonly PlainPaper[] };

const UNLESS_NOUGHT = ['BT-107', 'BT-108', 'BT-113', 'BT-114'];

const plain = (term: string, value: unknown): unknown => {
  if (value instanceof Money)
    return UNLESS_NOUGHT.includes(term) && value.isZero() ? undefined : value.toString();
  if (Decimal.isDecimal(value)) return (value as Decimal).toFixed();
  if (term === 'BT-130') return QUANTITY_UNITS[value as QuantityUnit].rec20;
  if (typeof value === 'string') return value.trim() === '' ? undefined : value;
  if (Array.isArray(value)) return value.length === 0 ? undefined : value.map((each) => plain('', each));
  if (value === null || typeof value !== 'object') return undefined;
  const entries = Object.entries(value)
    .filter(([key]) => /^B[TG]-/.test(key))
    .map(([key, each]) => [key, plain(key, each)] as const)
    .filter(([, each]) => each !== undefined);
  return entries.length === 0 ? undefined : Object.fromEntries(entries);
};

export const plainPaper = (paper: Paper): PlainPaper => plain('', paper) as PlainPaper;

/** Drops what was not found. */
export const found = (terms: Record<string, unknown>): PlainPaper =>
  Object.fromEntries(
    Object.entries(terms).filter(
      ([, value]) =>
        value !== undefined &&
        !(typeof value === 'object' && value !== null && Object.keys(value).length === 0),
    ),
  ) as PlainPaper;
