import type { EntityManager } from 'typeorm';
import { strikeOut, strikeOutOfDocument } from '../../domain/clients/strike-out.js';
import { ActRow } from '../history/act.row.js';
import { ChangeRow } from '../history/change.row.js';
import { inParts } from './in-parts.js';

/** Rows that were erased; those that keep their history keep it without the name. */
export type Touched = { readonly table: string; readonly ids: readonly string[]; readonly keeps: boolean };

/** What the history holds of erased rows: that something changed, when and by whom; no longer from what to what. */
export const eraseHistory = async (
  manager: EntityManager,
  touched: readonly Touched[],
  about: readonly string[],
  words: readonly string[],
): Promise<void> => {
  const acts = new Set<string>();
  for (const { table, ids, keeps } of touched)
    for (const part of inParts(ids)) {
      const changes = await manager
        .createQueryBuilder(ChangeRow, 'change')
        .where('change.in_table = :table AND change.row_id IN (:...part)', { table, part })
        .getMany();
      for (const change of changes) {
        acts.add(change.act_id);
        const told = (text: string | null): string | null =>
          text === null ? null : keeps ? strikeOutOfDocument(text, words) : bare(text);
        const [before, after] = [told(change.before), told(change.after)];
        if (before !== change.before || after !== change.after)
          await manager.update(ChangeRow, { id: change.id }, { before, after });
      }
    }
  for (const part of inParts([...acts])) await manager.update(ActRow, part, { undoable: false });
  for (const subject of about) {
    const said = await manager
      .createQueryBuilder(ActRow, 'act')
      .where('act.subject = :subject OR act.subject LIKE :below', { subject, below: `${subject}/%` })
      .getMany();
    for (const { id, sentence } of said) {
      const struck = strikeOut(sentence, words);
      await manager.update(ActRow, { id }, { sentence: struck, undoable: false });
    }
  }
};

const bare = (text: string): string => {
  const { id, version } = JSON.parse(text) as { id: string; version?: number };
  return JSON.stringify({ id, version });
};
