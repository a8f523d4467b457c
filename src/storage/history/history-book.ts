import { In, LessThan, Like } from 'typeorm';
import type { Instant } from '../../domain/kernel/calendar-date.js';
import { NotFound } from '../../domain/kernel/errors.js';
import type { Reading } from '../session.js';
import { ActRow } from './act.row.js';
import { ChangeRow } from './change.row.js';
import { sealedBy } from './sealed-by.js';
import { isSecret } from './secret-columns.js';
import { CHANGED_SINCE, changedSince, type WhyNot, whyNotByItself } from './why-not-undo.js';

/** What a column holds, for whoever puts it into words. */
export type FieldKind = 'text' | 'number' | 'money' | 'yes-no';
export type FieldChange = {
  readonly field: string;
  readonly kind: FieldKind;
  readonly from: unknown;
  readonly to: unknown;
};
export type RowChange = {
  readonly table: string;
  readonly rowId: string;
  readonly did: 'added' | 'changed' | 'removed';
  readonly fields: readonly FieldChange[];
};

/** One thing somebody did, as it can be read. */
export type Act = {
  readonly id: string;
  readonly at: Instant;
  readonly who: string;
  readonly sentence: string;
  /** A path such as `client/0190…`. */
  readonly about: string;
  readonly changes: readonly RowChange[];
  /** Why it cannot be undone; none where it can. */
  readonly whyNot: WhyNot | undefined;
};

/** For upkeep and for finding only; they say nothing to anybody. */
const UNSAID = new Set(['id', 'version']);
const isSaid = (column: string): boolean =>
  !UNSAID.has(column) && !isSecret(column) && !/(^|_)(folded|sha256|fingerprint)$/.test(column);

/** The book of what was done. */
export const historyBook = {
  /** Acts about a subject and all below it, or all acts; newest first. @param before the last key of the page before */
  async page(
    reading: Reading,
    asked: { about?: string; before?: string; limit?: number; now: Instant },
  ): Promise<{ items: Act[]; next: string | undefined }> {
    const { about, before, limit = 20 } = asked;
    const older = before ? { id: LessThan(before) } : {};
    const below = about && `${about.replace(/[\\%_]/g, '')}/%`;
    const rows = await reading.manager.find(ActRow, {
      where:
        about && below
          ? [
              { ...older, subject: about },
              { ...older, subject: Like(below) },
            ]
          : older,
      order: { id: 'DESC' },
      take: limit + 1,
    });
    const acts = rows.slice(0, limit);
    return {
      items: await actsOf(reading, acts, asked.now),
      next: rows.length > limit ? acts.at(-1)?.id : undefined,
    };
  },

  /** @throws NotFound */
  async one(reading: Reading, id: string, now: Instant): Promise<Act> {
    const row = await reading.manager.findOneBy(ActRow, { id });
    const [act] = row ? await actsOf(reading, [row], now) : [];
    if (!act) throw new NotFound('change');
    return act;
  },
};

const actsOf = async (reading: Reading, acts: readonly ActRow[], now: Instant): Promise<Act[]> => {
  const byAct = new Map<string, ChangeRow[]>(acts.map(({ id }) => [id, []]));
  const changes = await reading.manager.find(ChangeRow, {
    where: { act_id: In([...byAct.keys()]) },
    order: { act_id: 'ASC', place: 'ASC' },
  });
  for (const change of changes) byAct.get(change.act_id)?.push(change);
  const open = acts.filter((act) => !whyNotByItself(act, now));
  const changed = await changedSince(reading, new Map(open.map(({ id }) => [id, byAct.get(id) ?? []])));
  const sealed = await sealedBy(reading, acts, byAct);
  const kinds = fieldKinds(reading);
  return acts.map((act) => ({
    id: act.id,
    at: act.at,
    who: act.who_name,
    sentence: act.sentence,
    about: act.subject,
    changes: (byAct.get(act.id) ?? []).map((change) => rowChange(change, kinds)),
    whyNot:
      sealed.get(act.id) ?? whyNotByItself(act, now) ?? (changed.has(act.id) ? CHANGED_SINCE : undefined),
  }));
};

type Kinds = (table: string, column: string) => FieldKind;

const fieldKinds = (reading: Reading): Kinds => {
  const known = new Map<string, FieldKind>();
  for (const { tableName, columns } of reading.manager.connection.entityMetadatas)
    for (const { propertyName, type } of columns)
      known.set(`${tableName}.${propertyName}`, type === 'bigint' ? 'money' : kindOf(type));
  return (table, column) => known.get(`${table}.${column}`) ?? 'text';
};
const kindOf = (type: unknown): FieldKind =>
  type === 'integer' ? 'number' : type === 'boolean' ? 'yes-no' : 'text';

const rowChange = (change: ChangeRow, kinds: Kinds): RowChange => {
  const before = change.before ? (JSON.parse(change.before) as Record<string, unknown>) : undefined;
  const after = change.after ? (JSON.parse(change.after) as Record<string, unknown>) : undefined;
  const columns = [...new Set([...Object.keys(before ?? {}), ...Object.keys(after ?? {})])].filter(isSaid);
  return {
    table: change.in_table,
    rowId: change.row_id,
    did: before ? (after ? 'changed' : 'removed') : 'added',
    fields: columns
      .map((field) => ({
        field,
        kind: kinds(change.in_table, field),
        from: before?.[field] ?? null,
        to: after?.[field] ?? null,
      }))
      .filter(({ from, to }) => JSON.stringify(from) !== JSON.stringify(to)),
  };
};
