import { DataSource } from 'typeorm';
import { Conflict } from '../../domain/kernel/errors.js';
import { type DataHome, optionsOf } from '../connection/data-source.js';
import { codeOf, withSqliteFile } from './sqlite-file.js';

/** @throws Conflict while a server, or another command, has the data open. A damaged file is nobody's */
export const mustBeNobodys = async (home: DataHome, then: string): Promise<void> => {
  const inUse = new Conflict(`The studio is open on this data. Stop the server, then ${then}.`, 'in-use');
  if (home.kind === 'sqlite') {
    // Leaving write-ahead mode needs the file for oneself alone, so it tells who else is there.
    await withSqliteFile(home.file, (data) => data.all('PRAGMA journal_mode = DELETE'), 200).catch(
      (error: unknown) => {
        if (codeOf(error) === 'SQLITE_BUSY') throw inUse;
        if (!['SQLITE_NOTADB', 'SQLITE_CORRUPT'].includes(codeOf(error))) throw error;
      },
    );
    return;
  }
  const source = await new DataSource(optionsOf(home)).initialize();
  try {
    const [{ others }] = await source.query(
      `SELECT count(*)::int AS others FROM pg_stat_activity
       WHERE datname = current_database() AND application_name = 'bastings' AND pid <> pg_backend_pid()`,
    );
    if (others > 0) throw inUse;
  } finally {
    await source.destroy();
  }
};
