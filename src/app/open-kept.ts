import { mkdir, stat } from 'node:fs/promises';
import sqlite3 from 'sqlite3';
import type { DataSource } from 'typeorm';
import { Conflict, Trouble } from '../domain/kernel/errors.js';
import { codeOf, withSqliteFile } from '../storage/backup/sqlite-file.js';
import { MachineClock } from '../storage/clock.js';
import { openForWriting } from '../storage/connection/data-source.js';
import { backupsOf } from './commands/keep-safe.js';
import type { Config } from './config.js';

const DAMAGED = ['SQLITE_CORRUPT', 'SQLITE_NOTADB'];
const CLOSED = [
  'SQLITE_READONLY',
  'SQLITE_CANTOPEN',
  'SQLITE_IOERR',
  'EACCES',
  'EPERM',
  'EROFS',
  'ENOTDIR',
  'EEXIST',
];

/**
 * Opens the kept data for the server. A file is read through first, without changing it.
 *
 * @throws Conflict in words where it is damaged or cannot be written to; it is then as it was
 */
export const openKept = async (config: Config): Promise<DataSource> => {
  if (config.home.kind === 'postgres') return openForWriting(config.home);
  const { file } = config.home;
  try {
    await mkdir(config.dataDir, { recursive: true, mode: 0o700 });
    if (!(await isSound(file, config))) throw await damaged(file, config);
    return await openForWriting(config.home);
  } catch (error) {
    if (error instanceof Trouble) throw error;
    const code = codeOf((error as { driverError?: unknown }).driverError ?? error);
    if (DAMAGED.includes(code)) throw await damaged(file, config);
    if (CLOSED.includes(code))
      throw new Conflict(
        `The folder ${config.dataDir} or the file in it cannot be read and written, so the studio was not opened. Let the program write there, or name another folder with DATA_DIR.`,
        'folder-closed',
      );
    throw error;
  }
};

const isSound = async (file: string, config: Config): Promise<boolean> => {
  const size = await stat(file).then(
    (found) => found.size,
    () => undefined,
  );
  if (size === undefined) return true;
  // SQLite takes an empty file for a new one. Where there are backups there was a studio in it.
  if (size === 0) return (await newestBackup(config)) === undefined;
  try {
    const [page] = await withSqliteFile(
      file,
      (read) => read.all('PRAGMA quick_check(1)'),
      5000,
      sqlite3.OPEN_READONLY,
    );
    return Object.values(page ?? {})[0] === 'ok';
  } catch (error) {
    if (DAMAGED.includes(codeOf(error))) return false;
    throw error;
  }
};

const newestBackup = async (config: Config): Promise<string | undefined> =>
  (await backupsOf(config, new MachineClock()).list())[0]?.name;

const damaged = async (file: string, config: Config): Promise<Conflict> => {
  const newest = await newestBackup(config);
  const then = newest
    ? `The newest backup is ${newest} in ${config.backupDir}. To bring it back, type: npm run restore -- ${newest}`
    : `There is no backup in ${config.backupDir}. If you keep one elsewhere, type: npm run restore -- FILE`;
  return new Conflict(
    `The file ${file} is damaged, so the studio was not opened and nothing in it was changed. ${then}`,
    'damaged',
  );
};
