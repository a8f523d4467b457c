import { copyFile as copyBytes, rename, rm, stat } from 'node:fs/promises';
import { DataSource } from 'typeorm';
import type { Instant } from '../../domain/kernel/calendar-date.js';
import { Conflict, Invalid } from '../../domain/kernel/errors.js';
import { type DataHome, openForWriting, optionsOf } from '../connection/data-source.js';
import { migrations } from '../migrations/migrations.js';
import { copyRowsIn, headOf } from './row-copy.js';
import { checkFile, type RowCounts } from './sqlite-copy.js';
import { codeOf, withSqliteFile } from './sqlite-file.js';

/** What came back, and where that which it replaced is kept. */
export type Restored = { readonly counts: RowCounts; readonly replaced: string | undefined };

const IN_USE = 'The studio is open on this data. Stop the server, then restore again.';

const isThere = (file: string): Promise<boolean> =>
  stat(file).then(
    (found) => found.isFile(),
    () => false,
  );

/** `2026-03-02T09:00:00.000Z` as part of a file's name. */
export const stampOf = (at: Instant): string => `${at.slice(0, 19).replaceAll(':', '-')}Z`;

/**
 * Puts a backup in the place of the present data, which is kept beside it. Browsers have to sign in again.
 *
 * @throws Invalid when it is no backup of this program; Conflict while the server runs on the present data
 */
export const restoreBackup = async (home: DataHome, from: string, at: Instant): Promise<Restored> => {
  if (!(await isThere(from))) throw new Invalid(`There is no file ${from}.`);
  return home.kind === 'sqlite' ? restoreFile(home.file, from, at) : restoreRows(home, from, at);
};

const restoreFile = async (file: string, from: string, at: Instant): Promise<Restored> => {
  // Everything is done on a copy: the backup itself is never opened, the present file stays until the copy is good.
  const incoming = `${file}.incoming`;
  await rm(incoming, { force: true });
  await copyBytes(from, incoming);
  try {
    const counts = await checked(incoming);
    const replaced = (await isThere(file)) ? await setAside(file, at) : undefined;
    await rename(incoming, file).catch(async (error: unknown) => {
      if (replaced) await rename(replaced, file);
      throw error;
    });
    await (await openForWriting({ kind: 'sqlite', file })).destroy();
    return { counts, replaced };
  } finally {
    for (const end of ['', '-wal', '-shm', '-journal']) await rm(`${incoming}${end}`, { force: true });
  }
};

const checked = async (incoming: string): Promise<RowCounts> => {
  const counts = await checkFile(incoming).catch((error: unknown) => {
    if (codeOf(error).startsWith('SQLITE_'))
      throw new Invalid('This file is not a backup made by this program, or it is damaged.');
    throw error;
  });
  if (!('act' in counts && 'migrations' in counts && 'sign_in_session' in counts))
    throw new Invalid('This file is not a backup made by this program.');
  const known = new Set(migrations.map(({ name }) => name));
  await withSqliteFile(incoming, async (data) => {
    const done = await data.all('SELECT name FROM migrations');
    if (!done.every(({ name }) => known.has(String(name))))
      throw new Invalid(
        'This backup was made by a newer release of the program. Use that one to restore it.',
      );
    await data.all('DELETE FROM sign_in_session');
  });
  return counts;
};

/** Moves the present file out of the way. Leaving write-ahead mode needs the file for oneself alone, so it tells who else is there. */
const setAside = async (file: string, at: Instant): Promise<string> => {
  await withSqliteFile(file, (data) => data.all('PRAGMA journal_mode = DELETE'), 200).catch(
    (error: unknown) => {
      if (codeOf(error) === 'SQLITE_BUSY') throw new Conflict(IN_USE, 'in-use');
      // A damaged file is often the very reason to restore.
      if (!['SQLITE_NOTADB', 'SQLITE_CORRUPT'].includes(codeOf(error))) throw error;
    },
  );
  const replaced = file.replace(/(\.sqlite)?$/, `-replaced-${stampOf(at)}.sqlite`);
  for (const end of ['-wal', '-shm']) {
    if (await isThere(`${file}${end}`)) await rename(`${file}${end}`, `${replaced}${end}`);
  }
  await rename(file, replaced);
  return replaced;
};

/** The same for PostgreSQL: the present tables move into a schema of their own. */
const restoreRows = async (home: DataHome, from: string, at: Instant): Promise<Restored> => {
  await headOf(from);
  const replaced = `replaced_${at.slice(0, 19).replaceAll(/\D/g, '')}`;
  const source = await new DataSource(optionsOf(home)).initialize();
  try {
    const [{ others }] = await source.query(
      `SELECT count(*)::int AS others FROM pg_stat_activity
       WHERE datname = current_database() AND application_name = 'bastings' AND pid <> pg_backend_pid()`,
    );
    if (others > 0) throw new Conflict(IN_USE, 'in-use');
    await source.query(`ALTER SCHEMA public RENAME TO ${replaced}`);
    await source.query('CREATE SCHEMA public');
    try {
      return { counts: await copyRowsIn(home, from), replaced: `the schema ${replaced}` };
    } catch (error) {
      await source.query('DROP SCHEMA public CASCADE');
      await source.query(`ALTER SCHEMA ${replaced} RENAME TO public`);
      throw error;
    }
  } finally {
    await source.destroy();
  }
};
