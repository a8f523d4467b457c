import sqlite3 from 'sqlite3';

/**
 * The sqlite3 driver as TypeORM is given it, with three habits mended:
 * a transaction takes its write lock at once (a deferred one that reads and then writes gets SQLITE_BUSY whatever
 * busy_timeout says); values that the driver would store wrongly without a word are refused; and rolling back what SQLite has
 * rolled back by itself, as it does on a full disk, is no error: TypeORM would believe itself inside that transaction for
 * ever, and later writes would be acknowledged and never kept.
 */
export class GuardedDatabase extends sqlite3.Database {
  private asking: sqlite3.Statement | undefined;
  private hasBegun = false;

  /** A number that differs whenever another connection has written since it was last asked for. */
  othersWrote(): Promise<number> {
    // Kept ready, since it is asked at every request.
    this.asking ??= this.prepare('PRAGMA data_version');
    const { asking } = this;
    return new Promise((resolve, reject) => {
      asking.all<{ data_version: number }>((error, rows) =>
        error ? reject(error) : resolve(rows[0]?.data_version ?? 0),
      );
    });
  }

  override close(done?: (error: Error | null) => void): void {
    this.asking?.finalize();
    this.asking = undefined;
    super.close(done);
  }

  override run(sql: string, ...rest: unknown[]): this {
    return super.run(lockingAtOnce(sql), ...(this.watched(sql, refuseUnstorable(rest)) as []));
  }

  override all(sql: string, ...rest: unknown[]): this {
    return super.all(lockingAtOnce(sql), ...(this.watched(sql, refuseUnstorable(rest)) as []));
  }

  /** The same with an ear to how a transaction begins and ends. */
  private watched(sql: string, rest: unknown[]): unknown[] {
    const done = rest.at(-1);
    if (!['BEGIN TRANSACTION', 'COMMIT', 'ROLLBACK'].includes(sql) || typeof done !== 'function') return rest;
    const ended = (error: Error | null): Error | null => {
      const rolledBackAlready = sql === 'ROLLBACK' && this.hasBegun && isNoTransaction(error);
      if (sql === 'ROLLBACK') this.hasBegun = false;
      else if (!error) this.hasBegun = sql === 'BEGIN TRANSACTION';
      return rolledBackAlready ? null : error;
    };
    return [
      ...rest.slice(0, -1),
      function (this: unknown, error: Error | null, ...more: unknown[]) {
        done.call(this, ended(error), ...more);
      },
    ];
  }
}

const isNoTransaction = (error: Error | null): boolean =>
  error?.message.includes('no transaction is active') === true;

// Which of its two verbs TypeORM uses for a statement depends on the statement and on TypeORM's release.
const lockingAtOnce = (sql: string): string => (sql === 'BEGIN TRANSACTION' ? 'BEGIN IMMEDIATE' : sql);

const refuseUnstorable = (rest: unknown[]): unknown[] => {
  for (const value of Array.isArray(rest[0]) ? rest[0] : []) {
    if (typeof value === 'bigint' || value === undefined || value instanceof Date) {
      throw new TypeError(
        'A bigint, a Date or undefined cannot be stored: it would be kept wrongly without a word.',
      );
    }
    if (typeof value === 'number' && !isExact(value)) {
      throw new TypeError(
        'This number cannot be stored: it is none, or too large to be read back as it was written.',
      );
    }
  }
  return rest;
};

const isExact = (value: number): boolean =>
  Number.isFinite(value) && (!Number.isInteger(value) || Number.isSafeInteger(value));

/** What TypeORM expects of a `driver`: the sqlite3 module with our Database in it. */
export const guardedSqlite = {
  ...sqlite3,
  Database: GuardedDatabase,
  verbose: () => guardedSqlite,
};
