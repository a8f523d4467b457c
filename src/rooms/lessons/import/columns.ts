import { foldForSearch } from '../../../domain/clients/client.js';

/** What a column may be said to hold. */
export const GARMENT_COLUMNS = {
  type: 'Garment type',
  operation: 'Operation',
  took: 'Time it took',
  planned: 'Time planned',
  finished: 'Finished on',
  note: 'Note',
  garment: 'Number of the garment, where it has several rows',
} as const;
export type GarmentColumn = keyof typeof GARMENT_COLUMNS;

/** What a bare number in a column of times means; '' where nobody said. */
export const TIME_UNITS = ['', 'hours', 'minutes'] as const;
export type TimeUnit = (typeof TIME_UNITS)[number];

/** What one column means. */
export type Meaning = { readonly field: GarmentColumn; readonly unit: TimeUnit };

const GUESSES: readonly [GarmentColumn, RegExp][] = [
  ['planned', /plan|estimat|geplant|prevu/],
  ['operation', /operation|arbeitsgang|task|^step|^work$|^stitching/],
  ['garment', /number|^no\.?$|^nr\.?$|^ref|commission|order/],
  ['finished', /finish|date|^on$|^day|datum|done|deliver/],
  ['took', /hour|minute|time|took|taken|actual|stunden|heures|^h$|^min$/],
  ['type', /type|garment|piece|kind|art$/],
  ['note', /note|remark|comment|client|customer|name|bemerkung/],
];

/** A first guess at what a column holds, by its name; '' where nothing is likely. */
export const likelyColumn = (head: string): string => {
  const folded = foldForSearch(head);
  return GUESSES.find(([, pattern]) => pattern.test(folded))?.[0] ?? '';
};

/** The unit a column's name says; '' where it says none. */
export const likelyTimeUnit = (head: string): TimeUnit => {
  const folded = foldForSearch(head);
  if (/\bmin(ute)?s?\b|minuten/.test(folded)) return 'minutes';
  return /\bhours?\b|\bhrs?\b|\bh\b|stunden|heures/.test(folded) ? 'hours' : '';
};

/** What was chosen for each column; undefined where it is left out. */
export const meaningsOf = (
  chosen: readonly { readonly to: string; readonly unit: TimeUnit }[],
): (Meaning | undefined)[] =>
  chosen.map(({ to, unit }) =>
    Object.hasOwn(GARMENT_COLUMNS, to) ? { field: to as GarmentColumn, unit } : undefined,
  );
