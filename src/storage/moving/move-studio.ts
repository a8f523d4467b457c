import { existsSync } from 'node:fs';
import { mkdir, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import { DataSource, type EntityManager } from 'typeorm';
import { Conflict, Invalid } from '../../domain/kernel/errors.js';
import { mustBeNobodys } from '../backup/in-use.js';
import { type DataHome, openForWriting, optionsOf } from '../connection/data-source.js';
import { digestsOf, firstDifference, putRows, rowsOf, type TableDigest, tablesOf } from './portable-rows.js';
import { withSnapshot } from './snapshot.js';

/** Brings rows into a home that is being filled, within one transaction. */
export type Filling = (manager: EntityManager) => Promise<void>;

/**
 * Moves a studio from one database into another, row by row, and compares both afterwards: every table's count and hash.
 * What is moved stays where it was.
 *
 * @throws Invalid when the target is not empty; Conflict when the server runs or the copy differs. The target is then as it was
 */
export const moveStudio = async (from: DataHome, to: DataHome, folder: string): Promise<TableDigest[]> => {
  if (from.kind === 'sqlite' && !existsSync(from.file)) throw new Invalid(`There is no file ${from.file}.`);
  await mustBeNobodys(from, 'move it again');
  return withSnapshot(from, folder, async (source) => {
    const here = await digestsOf(source);
    await fillEmptyHome(to, here, async (target) => {
      for (const table of tablesOf(source.connection)) {
        let some = [];
        for await (const row of rowsOf(source, table)) {
          some.push(row);
          if (some.length === AT_ONCE) {
            await putRows(target, table, some);
            some = [];
          }
        }
        await putRows(target, table, some);
      }
    });
    return here;
  });
};

const AT_ONCE = 500;

/**
 * Fills a home that holds nothing yet. It is full and the same as `expected`, or as empty as it was.
 *
 * @throws Invalid when it is not empty; Conflict when what was filled in differs from what is expected
 */
export const fillEmptyHome = (
  home: DataHome,
  expected: readonly TableDigest[],
  fill: Filling,
): Promise<void> =>
  home.kind === 'sqlite' ? fillFile(home.file, expected, fill) : fillDatabase(home, expected, fill);

const NOT_EMPTY = 'There is a studio in that place already, so nothing was brought in.';

const fillFile = async (file: string, expected: readonly TableDigest[], fill: Filling): Promise<void> => {
  if (existsSync(file)) throw new Invalid(NOT_EMPTY, [], 'not-empty');
  await mkdir(dirname(file), { recursive: true, mode: 0o700 });
  const incoming = `${file}.incoming`;
  const clear = async (): Promise<void> => {
    for (const end of ['', '-wal', '-shm', '-journal']) await rm(`${incoming}${end}`, { force: true });
  };
  await clear();
  try {
    const source = await openForWriting({ kind: 'sqlite', file: incoming });
    try {
      await fillAndCompare(source, expected, fill);
      // So that everything stands in the one file that is given its name.
      await source.query('PRAGMA journal_mode = DELETE');
    } finally {
      await source.destroy();
    }
    if (existsSync(file)) throw new Invalid(NOT_EMPTY, [], 'not-empty');
    await rename(incoming, file);
  } finally {
    await clear();
  }
};

const fillDatabase = async (
  home: DataHome,
  expected: readonly TableDigest[],
  fill: Filling,
): Promise<void> => {
  const source = await new DataSource(optionsOf(home)).initialize();
  try {
    const tables: unknown[] = await source.query(
      "SELECT table_name FROM information_schema.tables WHERE table_schema = 'public'",
    );
    if (tables.length > 0) throw new Invalid(NOT_EMPTY, [], 'not-empty');
    try {
      await source.runMigrations({ transaction: 'each' });
      await fillAndCompare(source, expected, fill);
    } catch (error) {
      await source.query('DROP SCHEMA public CASCADE');
      await source.query('CREATE SCHEMA public');
      throw error;
    }
  } finally {
    await source.destroy();
  }
};

const fillAndCompare = (source: DataSource, expected: readonly TableDigest[], fill: Filling): Promise<void> =>
  source.transaction(async (manager) => {
    // A row may stand before one of its own table that it refers to.
    if (source.options.type === 'sqlite') await manager.query('PRAGMA defer_foreign_keys = ON');
    await fill(manager);
    const different = firstDifference(expected, await digestsOf(manager));
    if (different)
      throw new Conflict(
        `What arrived differs from what was sent (${different}). Nothing was kept.`,
        'not-whole',
      );
  });
