import { AsyncLocalStorage } from 'node:async_hooks';
import { randomInt } from 'node:crypto';
import type { DataSource } from 'typeorm';
import { Conflict } from '../domain/kernel/errors.js';
import { ActInTheMaking } from './act-in-the-making.js';
import type { Clock } from './clock.js';
import { inWordsWhereFull } from './disk-full.js';
import { OnceRow } from './history/once.row.js';
import { uuidVersion7 } from './ids.js';
import type { Visit, Writing } from './session.js';
import { WriteQueue } from './write-queue.js';

/** What a write gives back: its value, and the act it left in the history (none when nothing changed). */
export type Done<T> = { readonly value: T; readonly act: string | undefined };

/** The same once-only key was used before: the first answer stands. */
export class AlreadyDone extends Conflict {
  constructor(readonly key: string) {
    super('This was already done; it was not done a second time.', 'already-done');
  }
}

const RETRIES = 30;
const isSerializationFailure = (error: unknown): boolean =>
  ['40001', '40P01'].includes(
    (error as { code?: string; driverError?: { code?: string } })?.driverError?.code ?? '',
  );

const isDuplicate = (error: unknown): boolean =>
  (error as { driverError?: { code?: string } })?.driverError?.code === '23505';

/**
 * The only way to change what is kept: one act, one transaction, one after the other. On PostgreSQL they also run at
 * serializable level and are tried again when they collide with another server's; within one server nearly all acts
 * would collide, since each takes a number or writes the history. A write inside a write joins it.
 */
export class UnitOfWork {
  private readonly queue = new WriteQueue();
  private readonly open = new AsyncLocalStorage<ActInTheMaking>();
  /** Once-only keys whose first write is kept: a request may write more than once, but claims its key only the first time. */
  private readonly claimed = new WeakSet<object>();

  constructor(
    private readonly source: DataSource,
    private readonly clock: Clock,
  ) {}

  async write<T>(visit: Visit, work: (writing: Writing) => Promise<T>): Promise<Done<T>> {
    const outer = this.open.getStore();
    if (outer) return { value: await work(outer), act: undefined };
    return this.inTurn(() => this.attempt(visit, work));
  }

  /** Undo needs to say which act it undoes; rooms use `undoAct` of the history. */
  async undoing<T>(visit: Visit, act: string, work: (writing: Writing) => Promise<T>): Promise<Done<T>> {
    return this.inTurn(() => this.attempt(visit, work, act));
  }

  /** Bookkeeping that is nobody's act and leaves no history: sessions, once-only answers, caches. */
  async aside<T>(work: (manager: DataSource['manager']) => Promise<T>): Promise<T> {
    const transaction = () => inWordsWhereFull(() => this.source.transaction(work));
    if (this.source.options.type === 'postgres') return transaction();
    return this.queue.isInside() ? work(this.source.manager) : this.queue.run(transaction);
  }

  /**
   * Writes the data file anew without what was taken away, so that none of it lies in a page or in the log beside it.
   * PostgreSQL keeps no such leavings in a backup made by this program.
   */
  async overwriteFreed(): Promise<void> {
    if (this.source.options.type === 'postgres') return;
    await this.queue.run(async () => {
      await this.source.query('VACUUM');
      await this.source.query('PRAGMA wal_checkpoint(TRUNCATE)');
    });
  }

  /** Ends when every queued write has ended. */
  idle(): Promise<void> {
    return this.queue.idle();
  }

  private inTurn<T>(attempt: () => Promise<T>): Promise<T> {
    return this.queue.run(() =>
      inWordsWhereFull(() => (this.source.options.type === 'postgres' ? this.withRetry(attempt) : attempt())),
    );
  }

  private async withRetry<T>(attempt: () => Promise<T>): Promise<T> {
    for (let tries = 1; ; tries += 1) {
      try {
        return await attempt();
      } catch (error) {
        // One row put in by two servers at once (a once-only key, the first of a series) can show as a duplicate.
        const may = isSerializationFailure(error) ? RETRIES : isDuplicate(error) ? 4 : 0;
        if (tries >= may) throw error;
        // Two servers that wait equally long would only collide again.
        await new Promise((resolve) => setTimeout(resolve, randomInt(2, 4 + tries * tries * 4)));
      }
    }
  }

  private async attempt<T>(
    visit: Visit,
    work: (writing: Writing) => Promise<T>,
    undoes?: string,
  ): Promise<Done<T>> {
    const level = this.source.options.type === 'postgres' ? 'SERIALIZABLE' : undefined;
    const inside = async (manager: DataSource['manager']): Promise<Done<T>> => {
      const act = new ActInTheMaking(manager, visit, this.clock.now(), () =>
        uuidVersion7(this.clock.ticks()),
      );
      if (undoes) act.undoing(undoes);
      if (visit.once && !this.claimed.has(visit.once)) await this.claim(manager, visit.once);
      const value = await this.open.run(act, () => work(act));
      return { value, act: await act.close() };
    };
    const done = await (level ? this.source.transaction(level, inside) : this.source.transaction(inside));
    if (visit.once) this.claimed.add(visit.once);
    return done;
  }

  private async claim(manager: DataSource['manager'], once: NonNullable<Visit['once']>): Promise<void> {
    if (await manager.findOneBy(OnceRow, { id: once.key })) throw new AlreadyDone(once.key);
    await manager.insert(OnceRow, {
      id: once.key,
      fingerprint: once.fingerprint,
      at: this.clock.now(),
      status: null,
      location: null,
      body: null,
    });
  }
}
