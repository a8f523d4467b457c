import { copyFile as copyBytes, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { DataSource } from 'typeorm';
import type { Instant } from '../../domain/kernel/calendar-date.js';
import { Invalid } from '../../domain/kernel/errors.js';
import { type DataHome, openForWriting, optionsOf } from '../connection/data-source.js';
import { areKnown } from '../migrations/migrations.js';
import { mustBeNobodys } from './in-use.js';
import { copyRowsIn, headOf } from './row-copy.js';
import { isSealed } from './sealed/age-file.js';
import { openSealed } from './sealed/seal-aside.js';
import { checkFile, type RowCounts } from './sqlite-copy.js';
import { codeOf, withSqliteFile } from './sqlite-file.js';

/** What came back, and where that which it replaced is kept. */
export type Restored = { readonly counts: RowCounts; readonly replaced: string | undefined };

const isThere = (file: string): Promise<boolean> =>
  stat(file).then(
    (found) => found.isFile(),
    () => false,
  );

/** `2026-03-02T09:00:00.000Z` as part of a file's name. */
export const stampOf = (at: Instant): string => `${at.slice(0, 19).replaceAll(':', '-')}Z`;

/** How a sealed backup is opened: who is asked for the passphrase, and the studio's own folder to open it in. */
export type Unsealing = { readonly passphrase: () => Promise<string>; readonly folder: string };

/**
 * Puts a backup in the place of the present data, which is kept beside it. Browsers have to sign in again.
 *
 * @throws Invalid when it is no backup of this program; Conflict while the server runs on the present data
 */
export const restoreBackup = async (
  home: DataHome,
  from: string,
  at: Instant,
  unsealing?: Unsealing,
): Promise<Restored> => {
  if (!(await isThere(from))) throw new Invalid(`There is no file ${from}.`);
  const put = (file: string) =>
    home.kind === 'sqlite' ? restoreFile(home.file, file, at) : restoreRows(home, file, at);
  if (!(await isSealed(from))) return put(from);
  if (!unsealing) throw new Invalid('This backup is sealed. Say its passphrase.', [], 'sealed');
  const opened = join(unsealing.folder, `bastings-restore-${stampOf(at)}.unfinished-open`);
  try {
    await rm(opened, { force: true });
    await openSealed(from, opened, await unsealing.passphrase());
    return await put(opened);
  } finally {
    await rm(opened, { force: true });
  }
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
  await withSqliteFile(incoming, async (data) => {
    const done = await data.all('SELECT name FROM migrations');
    if (!areKnown(done.map(({ name }) => String(name))))
      throw new Invalid(
        'This backup was made by a newer release of the program. Use that one to restore it.',
      );
    await data.all('DELETE FROM sign_in_session');
  });
  return counts;
};

/** Moves the present file out of the way. A damaged one is often the very reason to restore. */
const setAside = async (file: string, at: Instant): Promise<string> => {
  await mustBeNobodys({ kind: 'sqlite', file }, 'restore again');
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
  await mustBeNobodys(home, 'restore again');
  const source = await new DataSource(optionsOf(home)).initialize();
  try {
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
