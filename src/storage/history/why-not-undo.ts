import { In } from 'typeorm';
import { daysBetween, type Instant } from '../../domain/kernel/calendar-date.js';
import type { Reading } from '../session.js';
import type { ActRow } from './act.row.js';
import type { ChangeRow } from './change.row.js';

/** How long a change can be undone. */
export const UNDO_DAYS = 30;

/** Why an act cannot be undone: a code for programs, a sentence for people. */
export type WhyNot = { readonly code: string; readonly sentence: string };

export const CHANGED_SINCE: WhyNot = {
  code: 'changed-since',
  sentence: 'This was changed again since, so it cannot simply be undone.',
};

/** What the act itself says about undoing it; whether its rows were changed since is another question. */
export const whyNotByItself = (act: ActRow, now: Instant): WhyNot | undefined => {
  if (act.undone_by) return { code: 'already-undone', sentence: 'This was undone already.' };
  if (!act.undoable)
    return {
      code: 'sealed',
      sentence: 'This stays on record and cannot be undone. Correct it forward instead.',
    };
  if (daysBetween(act.at.slice(0, 10), now.slice(0, 10)) > UNDO_DAYS)
    return {
      code: 'too-old',
      sentence: `Changes can be undone for ${UNDO_DAYS} days; this one is older.`,
    };
  return undefined;
};

/** What each act left its rows at: the version of each, or none where it took the row away. */
const leftAt = (
  changes: readonly ChangeRow[],
): Map<string, { change: ChangeRow; version: number | undefined }> =>
  new Map(
    changes.map((change) => [
      `${change.in_table}/${change.row_id}`,
      {
        change,
        version: change.after ? (JSON.parse(change.after) as { version: number }).version : undefined,
      },
    ]),
  );

/** The acts, of those given, whose rows somebody has changed since. One question for each table, not for each act. */
export const changedSince = async (
  reading: Reading,
  changesByAct: ReadonlyMap<string, readonly ChangeRow[]>,
): Promise<Set<string>> => {
  const left = [...changesByAct].map(([act, changes]) => ({ act, rows: leftAt(changes) }));
  const asked = new Map<string, Set<string>>();
  for (const { rows } of left)
    for (const { change } of rows.values())
      asked.set(change.in_table, (asked.get(change.in_table) ?? new Set()).add(change.row_id));
  const present = new Map<string, number>();
  for (const [table, ids] of asked) {
    const row = reading.manager.connection.entityMetadatas.find(({ tableName }) => tableName === table);
    if (!row) continue;
    for (const part of inParts([...ids], 500)) {
      const found = await reading.manager.find(row.target, {
        select: { id: true, version: true } as never,
        where: { id: In(part) } as never,
      });
      for (const { id, version } of found as { id: string; version: number }[])
        present.set(`${table}/${id}`, version);
    }
  }
  return new Set(
    left
      .filter(({ rows }) => [...rows].some(([key, { version }]) => present.get(key) !== version))
      .map(({ act }) => act),
  );
};

const inParts = <T>(all: readonly T[], size: number): T[][] =>
  Array.from({ length: Math.ceil(all.length / size) }, (_, place) =>
    all.slice(place * size, (place + 1) * size),
  );
