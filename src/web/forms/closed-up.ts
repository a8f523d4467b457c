import type { Typed } from './typed.js';

/** The rows of a grid, and the form's other fields. */
export type ClosedUp = {
  /** What was typed, the rows renumbered so that errors name the lines that are shown again. */
  readonly typed: Typed;
  readonly rows: readonly Record<string, string>[];
  /** What was typed outside the grid. */
  readonly rest: Typed;
};

/**
 * The rows of a grid sent as `overhead.0.name`, `overhead.2.name`: closed up, so that lines left blank leave no gap.
 *
 * @param telling the fields that make a line more than blank
 */
export const closedUp = (typed: Typed, list: string, telling: readonly string[]): ClosedUp => {
  const rows = new Map<number, Record<string, string>>();
  const rest: Record<string, string> = {};
  for (const [name, value] of Object.entries(typed)) {
    const [first, place, field, ...more] = name.split('.');
    if (first !== list || !/^\d{1,3}$/.test(place ?? '') || field === undefined || more.length > 0)
      rest[name] = value;
    else rows.set(Number(place), { ...rows.get(Number(place)), [field]: value });
  }
  const said = [...rows]
    .sort(([a], [b]) => a - b)
    .map(([, row]) => row)
    .filter((row) => telling.some((field) => (row[field] ?? '').trim() !== ''));
  return { typed: { ...rest, ...rowsTyped(list, said) }, rows: said, rest };
};

/** Rows as the fields of a grid. */
export const rowsTyped = (
  list: string,
  rows: readonly Readonly<Record<string, string>>[],
): Record<string, string> =>
  Object.fromEntries(
    rows.flatMap((row, place) =>
      Object.entries(row).map(([field, value]) => [`${list}.${place}.${field}`, value]),
    ),
  );

/** The rows of an entry grid: those that hold something, and some more to write on. */
export const gridRows = (
  list: string,
  fields: readonly string[],
  filled: number,
  more: number,
): { label: string; names: string[] }[] =>
  Array.from({ length: filled + more }, (_, place) => ({
    label: `line ${place + 1}`,
    names: fields.map((field) => `${list}.${place}.${field}`),
  }));
