import type { QuantityUnit } from '../kernel/quantity.js';
import type { StockMethod } from './movements.js';

/** What a material is for. */
export const MATERIAL_KINDS = {
  cloth: 'cloth',
  lining: 'lining',
  interlining: 'interlining',
  thread: 'thread',
  trimming: 'trimming',
  notion: 'notion',
  other: 'other',
} as const;
export type MaterialKind = keyof typeof MATERIAL_KINDS;

/** How the issue cost methods are called in words. @see IAS 2, paragraphs 23 to 25 */
export const METHOD_WORDS: Readonly<Record<StockMethod, string>> = {
  lot: 'the very piece',
  'first-in-first-out': 'first in, first out',
  'weighted-average': 'weighted average',
};

/** A width or repeat as it was typed, and in millimetres; both empty when nobody said. */
export type TypedLength = { readonly shown: string; readonly mm: string };
export const NO_LENGTH: TypedLength = { shown: '', mm: '' };

/** Somebody cloth and trimmings are bought from. */
export type Supplier = {
  readonly id: string;
  readonly version: number;
  readonly name: string;
  readonly address: string;
  readonly email: string;
  readonly phone: string;
  readonly notes: string;
};

/** Something the workroom uses, of which it keeps lots. */
export type Material = {
  readonly id: string;
  readonly version: number;
  readonly name: string;
  readonly kind: MaterialKind;
  /** What it is counted in. */
  readonly unit: QuantityUnit;
  readonly width: TypedLength;
  /** By part, in words: "warp wool, weft wool and silk". */
  readonly fibres: string;
  /** In words; care symbols are registered marks. */
  readonly care: string;
  readonly patternRepeat: TypedLength;
  /** Has it a direction, so that all pieces lie one way? */
  readonly hasNap: boolean;
  /** Where it is usually bought. */
  readonly supplierId: string | undefined;
  /** Where it lies. */
  readonly place: string;
  /** How an issue of it is costed. */
  readonly method: StockMethod;
  readonly notes: string;
};
