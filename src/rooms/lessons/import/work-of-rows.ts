import { Decimal } from '../../../domain/kernel/decimal.js';
import { minutesOfHours } from '../../../domain/kernel/minutes.js';
import type { PastOperation } from '../../../domain/lessons/past-work.js';
import type { NamedWork } from './known-work.js';

/** What a row of a list says of one operation. */
export type WorkRow = {
  readonly line: number;
  /** As the list calls it; empty where the row names none. */
  readonly saidWork: string;
  readonly work: NamedWork | undefined;
  /** Hours; 0 where the list says so. */
  readonly took: Decimal | undefined;
  readonly planned: Decimal | undefined;
};

/** Time is kept in whole minutes; what took any time at all took one. */
const wholeMinutesOf = (hours: Decimal): number =>
  hours.isZero()
    ? 0
    : Math.max(1, minutesOfHours(hours).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber());

/** The operations of one garment, rows of one kind and mode added together, with what is wrong with them. */
export const workOfRows = (
  rows: readonly WorkRow[],
  typeId: string | undefined,
  usualOf: (typeId: string, kind: string) => number | undefined,
): { readonly operations: PastOperation[]; readonly troubles: readonly string[] } => {
  const troubles: string[] = [];
  if (rows.every(({ saidWork }) => saidWork === '')) return { operations: [], troubles };
  const found = new Map<string, PastOperation>();
  for (const row of rows) {
    const tell = (sentence: string) =>
      troubles.push(rows.length > 1 ? `line ${row.line}: ${sentence}` : sentence);
    if (row.saidWork === '') tell('Operation: none is given, and other rows of this garment have one.');
    else if (!row.work) tell(`Operation: say what “${row.saidWork}” is.`);
    else if (!row.took) tell('Time it took: no time is given. Write 0 for what was not done.');
    else if (row.took.isZero() && !row.planned?.gt(0)) tell('Time it took: neither planned nor done.');
    else {
      const { kind, mode } = row.work;
      const before = found.get(`${kind} ${mode}`);
      const planned = row.planned && wholeMinutesOf(row.planned);
      found.set(`${kind} ${mode}`, {
        ...row.work,
        actualMinutes: (before?.actualMinutes ?? 0) + wholeMinutesOf(row.took),
        plannedMinutes: sum(before?.plannedMinutes, planned),
        usualMinutes: typeId ? usualOf(typeId, kind) : undefined,
      });
    }
  }
  return { operations: [...found.values()], troubles };
};

const sum = (one: number | undefined, other: number | undefined): number | undefined =>
  one === undefined && other === undefined ? undefined : (one ?? 0) + (other ?? 0);
