import type { ObjectLiteral } from 'typeorm';
import { Conflict, NotFound } from '../../domain/kernel/errors.js';
import { isConstraintBroken } from '../constraint-broken.js';
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
    for (const change of changes) await takeBack(writing, change, expected);
    await mustHoldAfterUndo(writing, changes);
    writing.says(`Undid: ${act.sentence}`, act.subject);
    return act;
  });

/** `expected` holds the versions this undoing itself has made, where one act changed the same row more than once. */
const takeBack = async (
  writing: Writing,
  change: ChangeRow,
  expected: Map<string, number>,
): Promise<void> => {
  const row = writing.manager.connection.entityMetadatas.find(
    (one) => one.tableName === change.in_table,
  )?.target;
  if (!row) throw new Conflict('The program no longer keeps this kind of record.', 'gone');
  const before = change.before && (JSON.parse(change.before) as Kept);
  const after = change.after && (JSON.parse(change.after) as Kept);
  const present = (await writing.manager.findOneBy(row, { id: change.row_id })) as Kept | null;
  const key = `${change.in_table}/${change.row_id}`;
  const unchanged = after ? present?.version === (expected.get(key) ?? after.version) : present === null;
  if (!unchanged) throw new Conflict(CHANGED_SINCE.sentence, CHANGED_SINCE.code);
  if (!before) {
    await writing.remove<Kept>(row as never, change.row_id);
  } else if (after) {
    const back = await writing.update<Kept>(row as never, change.row_id, before);
    expected.set(key, back.version);
  } else {
    const back = await writing.insert<Kept>(row as never, before);
    expected.set(key, back.version);
  }
};
