import sqlite3 from 'sqlite3';

/**
 * The sqlite3 driver as TypeORM is given it, with two habits mended:
 * a transaction takes its write lock at once (a deferred one that reads and then writes gets SQLITE_BUSY whatever
 * busy_timeout says), and values that the driver would store wrongly without a word are refused.
 */
export class GuardedDatabase extends sqlite3.Database {
  private asking: sqlite3.Statement | undefined;

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
    return super.run(lockingAtOnce(sql), ...(refuseUnstorable(rest) as []));
  }

  override all(sql: string, ...rest: unknown[]): this {
    return super.all(lockingAtOnce(sql), ...(refuseUnstorable(rest) as []));
  }
}

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
