import { type EntityManager, type EntityTarget, In, type ObjectLiteral } from 'typeorm';
import type { Instant } from '../domain/kernel/calendar-date.js';
import { NotFound, Stale } from '../domain/kernel/errors.js';
import { ActRow } from './history/act.row.js';
import { ChangeRow } from './history/change.row.js';
import { isNeverTakenBack, withoutSecrets } from './history/secret-columns.js';
import { inParts } from './in-parts.js';
import type { KeptRow } from './rows/kept-row.js';
import type { Visit, Writing } from './session.js';

type Change = { table: string; rowId: string; before: object | null; after: object | null };

/** The writing side of one transaction; collects its changes and writes them to the history at the end. */
export class ActInTheMaking implements Writing {
  private readonly changes: Change[] = [];
  private sentence = '';
  private subject = '';
  private undoable = true;
  private undoes: string | null = null;

  constructor(
    readonly manager: EntityManager,
    readonly visit: Visit,
    readonly at: Instant,
    readonly newId: () => string,
  ) {}

  says(sentence: string, subject: string): void {
    this.sentence = sentence;
    this.subject = subject;
  }

  forGood(): void {
    this.undoable = false;
  }

  undoing(actId: string): void {
    this.undoes = actId;
  }

  async insert<R extends KeptRow>(row: EntityTarget<R>, values: Omit<R, 'version'>): Promise<R> {
    // Undo brings a removed row back with its old values; its version goes on from there, so that no stale form fits it.
    const earlier = (values as Partial<KeptRow>).version ?? 0;
    const whole = { ...values, version: earlier + 1 } as R;
    await this.manager.insert(row as EntityTarget<ObjectLiteral>, whole);
    this.changes.push({ table: this.tableOf(row), rowId: whole.id, before: null, after: whole });
    return whole;
  }

  async insertAll<R extends KeptRow>(
    row: EntityTarget<R>,
    values: readonly Omit<R, 'version'>[],
  ): Promise<R[]> {
    const whole = values.map(
      (one) => ({ ...one, version: ((one as Partial<KeptRow>).version ?? 0) + 1 }) as R,
    );
    for (const some of inParts(whole, 50))
      await this.manager.insert(row as EntityTarget<ObjectLiteral>, some);
    const table = this.tableOf(row);
    for (const one of whole) this.changes.push({ table, rowId: one.id, before: null, after: one });
    return whole;
  }

  async insertForGood<R extends KeptRow>(row: EntityTarget<R>, values: Omit<R, 'version'>): Promise<R> {
    this.undoable = false;
    return this.insert(row, values);
  }

  async update<R extends KeptRow>(
    row: EntityTarget<R>,
    id: string,
    changes: Partial<R>,
    seen?: number,
  ): Promise<R> {
    const before = await this.present(row, id, seen);
    const after = { ...before, ...changes, id, version: before.version + 1 };
    const { id: _key, ...columns } = after;
    const result = await this.manager
      .createQueryBuilder()
      .update(row as EntityTarget<ObjectLiteral>)
      .set(columns)
      .where('id = :id AND version = :version', { id, version: before.version })
      .execute();
    // On PostgreSQL another server process may have been faster between the look and the change.
    if (result.affected === 0) throw new Stale(before as Record<string, unknown>);
    this.changes.push({ table: this.tableOf(row), rowId: id, before, after });
    return after;
  }

  async remove<R extends KeptRow>(row: EntityTarget<R>, id: string, seen?: number): Promise<R> {
    const before = await this.present(row, id, seen);
    await this.manager.delete(row as EntityTarget<ObjectLiteral>, { id });
    this.changes.push({ table: this.tableOf(row), rowId: id, before, after: null });
    return before;
  }

  async removeAll<R extends KeptRow>(row: EntityTarget<R>, ids: readonly string[]): Promise<void> {
    const table = this.tableOf(row);
    for (const some of inParts(ids, 500)) {
      const target = row as EntityTarget<ObjectLiteral>;
      const present = await this.manager.findBy(target, { id: In(some) });
      if (present.length < some.length) throw new NotFound(table.replaceAll('_', ' '));
      await this.manager.delete(target, { id: In(some) });
      const rows = new Map(present.map((one) => [one.id as string, one]));
      for (const id of some)
        this.changes.push({ table, rowId: id, before: { ...rows.get(id) }, after: null });
    }
  }

  async seal(subject: string): Promise<void> {
    await this.manager
      .createQueryBuilder()
      .update(ActRow)
      .set({ undoable: false })
      .where('(subject = :subject OR subject LIKE :below) AND undoable = :yes', {
        subject,
        below: `${subject}/%`,
        yes: true,
      })
      .execute();
  }

  /** Writes the history lines. @returns the act's id, or none when nothing was changed */
  async close(): Promise<string | undefined> {
    if (this.changes.length === 0) return undefined;
    const id = this.newId();
    await this.manager.insert(ActRow, {
      id,
      at: this.at,
      who_id: this.visit.who.id,
      who_name: this.visit.who.name,
      subject: this.subject,
      sentence: this.sentence,
      undoable: this.undoable && !this.changes.some(({ table }) => isNeverTakenBack(table)),
      undoes: this.undoes,
      undone_by: null,
    });
    if (this.undoes) await this.manager.update(ActRow, { id: this.undoes }, { undone_by: id });
    const lines = this.changes.map((change, place) => ({
      id: this.newId(),
      act_id: id,
      place,
      in_table: change.table,
      row_id: change.rowId,
      before: change.before && JSON.stringify(withoutSecrets(change.before)),
      after: change.after && JSON.stringify(withoutSecrets(change.after)),
    }));
    for (const some of inParts(lines, 100)) await this.manager.insert(ChangeRow, some);
    return id;
  }

  private async present<R extends KeptRow>(row: EntityTarget<R>, id: string, seen?: number): Promise<R> {
    const present = (await this.manager.findOneBy(row as EntityTarget<ObjectLiteral>, { id })) as R | null;
    if (!present) throw new NotFound(this.tableOf(row).replaceAll('_', ' '));
    if (seen !== undefined && present.version !== seen)
      throw new Stale({ ...present } as Record<string, unknown>);
    return { ...present };
  }

  private tableOf(row: EntityTarget<unknown>): string {
    return this.manager.connection.getMetadata(row as EntityTarget<ObjectLiteral>).tableName;
  }
}
