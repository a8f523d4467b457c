import sqlite3 from 'sqlite3';

/** A SQLite file opened beside the server's own connections, for a moment. */
export type SqliteFile = {
  all(sql: string, parameters?: readonly unknown[]): Promise<Record<string, unknown>[]>;
};

const opened = (file: string, mode: number): Promise<sqlite3.Database> =>
  new Promise((resolve, reject) => {
    const database: sqlite3.Database = new sqlite3.Database(file, mode, (error) =>
      error ? reject(error) : resolve(database),
    );
  });

const closed = (database: sqlite3.Database): Promise<void> =>
  new Promise((resolve) => database.close(() => resolve()));

/**
 * Opens a file that is there, works on it, and closes it again.
 *
 * @param patience milliseconds to wait for somebody else's lock
 * @param mode how sqlite3 opens it; `sqlite3.OPEN_READONLY` changes nothing in it
 */
export const withSqliteFile = async <T>(
  file: string,
  work: (data: SqliteFile) => Promise<T>,
  patience = 5000,
  mode = sqlite3.OPEN_READWRITE,
): Promise<T> => {
  const database = await opened(file, mode);
  database.configure('busyTimeout', patience);
  const all: SqliteFile['all'] = (sql, parameters = []) =>
    new Promise((resolve, reject) => {
      database.all<Record<string, unknown>>(sql, [...parameters], (error, rows) =>
        error ? reject(error) : resolve(rows),
      );
    });
  try {
    return await work({ all });
  } finally {
    await closed(database);
  }
};

/** What the driver calls an error, such as `SQLITE_BUSY`. */
export const codeOf = (error: unknown): string =>
  String((error as { code?: unknown } | undefined)?.code ?? '');
