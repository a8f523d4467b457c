import type { ObjectLiteral } from 'typeorm';
import { Conflict, NotFound } from '../../domain/kernel/errors.js';
import { isConstraintBroken } from '../constraint-broken.js';
import { inParts } from '../in-parts.js';
import type { KeptRow } from '../rows/kept-row.js';
import type { Visit, Writing } from '../session.js';
import type { Done, UnitOfWork } from '../unit-of-work.js';
import { ActRow } from './act.row.js';
import { ChangeRow } from './change.row.js';
import { mustHoldAfterUndo } from './undo-rules.js';
import { CHANGED_SINCE, whyNotByItself } from './why-not-undo.js';

type Kept = KeptRow & ObjectLiteral;

/**
 * Takes back one act, change by change, last first. The undoing is an act itself, and can be undone in turn.
 *
 * @throws Conflict when a paper was issued on it, 30 days are over, it was undone already, or something it touched has
 *   been changed since, something made later rests on it, or a rule that rows alone do not hold would be broken
 */
export const undoAct = (unit: UnitOfWork, visit: Visit, actId: string): Promise<Done<ActRow>> =>
  takeBackAct(unit, visit, actId).catch((error: unknown) => {
    if (isConstraintBroken(error)) throw new Conflict(RESTS_ON_IT, 'in-use');
    throw error;
  });

const RESTS_ON_IT = 'Something made later rests on this, so it cannot be undone. Take that away first.';

const takeBackAct = (unit: UnitOfWork, visit: Visit, actId: string): Promise<Done<ActRow>> =>
  unit.undoing(visit, actId, async (writing) => {
    const act = await writing.manager.findOneBy(ActRow, { id: actId });
    if (!act) throw new NotFound('change');
    const whyNot = whyNotByItself(act, writing.at);
    if (whyNot) throw new Conflict(whyNot.sentence, whyNot.code);
    const changes = await writing.manager.find(ChangeRow, {
      where: { act_id: actId },
      order: { place: 'DESC' },
    });
    const expected = new Map<string, number>();
    for (const run of alike(changes)) await takeBack(writing, run, expected);
    await mustHoldAfterUndo(writing, changes);
    writing.says(`Undid: ${act.sentence}`, act.subject);
    return act;
  });

type Run = { readonly table: string; readonly kind: Kind; readonly changes: ChangeRow[] };
type Kind = 'made' | 'changed' | 'taken away';

const kindOf = ({ before, after }: ChangeRow): Kind => (!before ? 'made' : after ? 'changed' : 'taken away');

/** Neighbours of one table and one kind, in their order: fifty thousand rows of a list are taken back in few statements. */
const alike = (changes: readonly ChangeRow[]): Run[] => {
  const runs: Run[] = [];
  for (const change of changes) {
    const [table, kind] = [change.in_table, kindOf(change)];
    const last = runs.at(-1);
    if (last && last.table === table && last.kind === kind && kind !== 'changed') last.changes.push(change);
    else runs.push({ table, kind, changes: [change] });
  }
  return runs;
};

/** `expected` holds the versions this undoing itself has made, where one act changed the same row more than once. */
const takeBack = async (
  writing: Writing,
  { table, kind, changes }: Run,
  expected: Map<string, number>,
): Promise<void> => {
  const row = writing.manager.connection.entityMetadatas.find((one) => one.tableName === table)?.target;
  if (!row) throw new Conflict('The program no longer keeps this kind of record.', 'gone');
  const ids = changes.map((change) => change.row_id);
  const present = await versionsOf(writing, table, ids);
  const keyOf = (id: string) => `${table}/${id}`;
  for (const { row_id, after } of changes) {
    const version = after ? (expected.get(keyOf(row_id)) ?? (JSON.parse(after) as Kept).version) : undefined;
    if (present.get(row_id) !== version) throw new Conflict(CHANGED_SINCE.sentence, CHANGED_SINCE.code);
  }
  if (kind === 'made') return writing.removeAll<Kept>(row as never, ids);
  const earlier = changes.map(({ before }) => JSON.parse(before ?? '') as Kept);
  const back =
    kind === 'taken away'
      ? await writing.insertAll<Kept>(row as never, earlier)
      : [await writing.update<Kept>(row as never, ids[0] ?? '', earlier[0] ?? {})];
  for (const { id, version } of back) expected.set(keyOf(id), version);
};

/** The versions of those of these rows that are there. */
const versionsOf = async (
  writing: Writing,
  table: string,
  ids: readonly string[],
): Promise<ReadonlyMap<string, number>> => {
  const found = new Map<string, number>();
  for (const some of inParts(ids, 500)) {
    const rows = await writing.manager
      .createQueryBuilder()
      .select(['id', 'version'])
      .from(table, 'kept')
      .where('id IN (:...some)', { some })
      .getRawMany<{ id: string; version: number }>();
    for (const { id, version } of rows) found.set(id, version);
  }
  return found;
};
