import sqlite3 from 'sqlite3';

/**
 * The sqlite3 driver as TypeORM is given it, with two habits mended:
 * a transaction takes its write lock at once (a deferred one that reads and then writes gets SQLITE_BUSY whatever
 * busy_timeout says), and values that the driver would store wrongly without a word are refused.
 */
class GuardedDatabase extends sqlite3.Database {
  override run(sql: string, ...rest: unknown[]): this {
    const statement = sql === 'BEGIN TRANSACTION' ? 'BEGIN IMMEDIATE' : sql;
    return super.run(statement, ...(refuseUnstorable(rest) as []));
  }

  override all(sql: string, ...rest: unknown[]): this {
    return super.all(sql, ...(refuseUnstorable(rest) as []));
  }
}

const refuseUnstorable = (rest: unknown[]): unknown[] => {
  const parameters = Array.isArray(rest[0]) ? rest[0] : [];
  for (const value of parameters) {
    if (typeof value === 'bigint' || value === undefined || value instanceof Date) {
      throw new TypeError(
        'A bigint, a Date or undefined cannot be stored: it would be kept wrongly without a word.',
      );
    }
  }
  return rest;
};

/** What TypeORM expects of a `driver`: the sqlite3 module with our Database in it. */
export const guardedSqlite = {
  ...sqlite3,
  Database: GuardedDatabase,
  verbose: () => guardedSqlite,
};
