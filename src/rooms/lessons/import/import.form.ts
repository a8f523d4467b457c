import { z } from 'zod';
import { line, oneOf, optionalLine, yesNo } from '../../../web/fields/fields.js';
import { parse } from '../../../web/forms/parse.js';
import type { Typed } from '../../../web/forms/typed.js';
import { MOST_COLUMNS, type TableLimits } from '../../../web/tables/table-of-text.js';
import { TIME_UNITS } from './columns.js';

/** What a list of past garments may hold. */
export const GARMENT_LIST: TableLimits = {
  bytes: 6 * 1024 * 1024,
  rows: 50_000,
  nothing: 'There are no garments in this table.',
  noText: 'This is not a text file. Save the table as CSV.',
};

export const MOST_KINDS = 60;
export const MOST_WORKS = 200;

/** What is said about a list to bring in, beside its text: the same on the page and in the JSON interface. */
export const ImportFields = z.strictObject({
  /** Does the first line hold the names of the columns? */
  headed: yesNo(),
  columns: z
    .array(
      z.strictObject({
        to: optionalLine(40),
        unit: oneOf(TIME_UNITS, 'Choose hours or minutes.').default(''),
      }),
    )
    .max(MOST_COLUMNS)
    .default([]),
  /** What the list calls garments, and the type the studio means by it. */
  kinds: z
    .array(z.strictObject({ said: line('Say what the list calls it.', 200), type: optionalLine(60) }))
    .max(MOST_KINDS)
    .default([]),
  /** What the list calls operations: the kind the studio means by it, or `own hand`, `own press` and so on for work of its own. */
  works: z
    .array(z.strictObject({ said: line('Say what the list calls it.', 200), means: optionalLine(80) }))
    .max(MOST_WORKS)
    .default([]),
  /** What becomes of garments that are written down already: same type, day and hours. */
  twins: oneOf(['leave', 'add'] as const).default('leave'),
  /** Leaves out the rows in which something cannot be read. */
  leaveTroubles: yesNo(),
  /** Keeps times that look like a slip, after they were looked at. */
  keepUnusual: yesNo(),
});

/** A list as a program sends it. */
export const ListSent = ImportFields.extend({
  text: z.string('Send the list as text.').min(1, 'Send the list as text.'),
  /** Tells what would become of each garment, and keeps nothing. */
  preview: yesNo(),
});

export type ImportWords = z.output<typeof ImportFields>;

const placesOf = (typed: Typed, name: string): string[] =>
  Object.keys(typed)
    .flatMap((key) => new RegExp(`^${name}\\.(\\d{1,3})$`).exec(key)?.[1] ?? [])
    .sort((a, b) => Number(a) - Number(b));

/** Reads the forms of the second and the last step. @throws Invalid */
export const readImport = (typed: Typed): ImportWords => {
  const places = placesOf(typed, 'to');
  const columns = Array.from(
    { length: Math.max(0, ...places.map((place) => Number(place) + 1)) },
    (_, place) => ({ to: typed[`to.${place}`] ?? '', unit: typed[`unit.${place}`] ?? '' }),
  );
  const kinds = placesOf(typed, 'said').map((place) => ({
    said: typed[`said.${place}`] ?? '',
    type: typed[`kind.${place}`] ?? '',
  }));
  const works = placesOf(typed, 'work').map((place) => ({
    said: typed[`work.${place}`] ?? '',
    means: typed[`means.${place}`] ?? '',
  }));
  const { headed, twins, leaveTroubles, keepUnusual } = typed;
  return parse(ImportFields, { headed, columns, kinds, works, twins, leaveTroubles, keepUnusual });
};
