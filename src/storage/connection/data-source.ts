import sqlite3 from 'sqlite3';
import { DataSource, type DataSourceOptions } from 'typeorm';
import { Conflict } from '../../domain/kernel/errors.js';
import { areKnown, migrations } from '../migrations/migrations.js';
import { rows } from '../rows/rows.js';
import { guardedSqlite } from './guarded-sqlite.js';

/** Where the studio's data lives: one SQLite file, or a PostgreSQL database for a workroom that outgrows one machine. */
export type DataHome =
  | { readonly kind: 'sqlite'; readonly file: string }
  | { readonly kind: 'postgres'; readonly url: string };

const shared = { entities: rows, migrations, synchronize: false, logging: false } as const;

/** How a connection that writes is opened. */
export const optionsOf = (home: DataHome): DataSourceOptions =>
  home.kind === 'postgres'
    ? {
        ...shared,
        type: 'postgres',
        url: home.url,
        applicationName: 'bastings',
        migrationsTransactionMode: 'each',
      }
    : {
        ...shared,
        type: 'sqlite',
        database: home.file,
        driver: guardedSqlite,
        enableWAL: true,
        busyTimeout: 5000,
      };

/** Opens the connection that writes, and brings the tables up to date. */
export const openForWriting = async (home: DataHome): Promise<DataSource> => {
  const source = await new DataSource(optionsOf(home)).initialize();
  await mustNotBeNewer(source);
  if (home.kind === 'sqlite') {
    // FULL is what makes an acknowledged write survive a power cut; set it, since builds of SQLite differ.
    await source.query('PRAGMA synchronous = FULL');
    // What is taken away is written over: a photograph whose consent was withdrawn must not lie in a free page.
    await source.query('PRAGMA secure_delete = ON');
  }
  const brought = await source.runMigrations({ transaction: 'each' });
  // After a million entries this takes as long as all the rest of a start, and nothing but a migration writes without looking at
  // what its rows refer to. Every backup is looked through like this too.
  if (home.kind === 'sqlite' && brought.length > 0) {
    const broken: unknown[] = await source.query('PRAGMA foreign_key_check');
    if (broken.length > 0)
      throw new Error('The data file refers to rows that are not there. Restore the last backup.');
  }
  return source;
};

/** @throws Conflict when a newer release has written to it; nothing was changed then */
const mustNotBeNewer = async (source: DataSource): Promise<void> => {
  const runner = source.createQueryRunner();
  const done: { name: string }[] = (await runner.hasTable('migrations'))
    ? await runner.query('SELECT name FROM migrations')
    : [];
  if (source.options.type === 'postgres') await runner.release();
  if (areKnown(done.map(({ name }) => name))) return;
  await source.destroy();
  throw new Conflict(
    'A newer release of the program has written to this studio, so this one does not open it and changed nothing. Start the newer one.',
    'newer-release',
  );
};

/** Opens a second connection that can only read, so that a page never sees rows of a write that has not ended. */
export const openForReading = async (home: DataHome): Promise<DataSource> => {
  if (home.kind === 'postgres') return new DataSource(optionsOf(home)).initialize();
  const source = await new DataSource({
    type: 'sqlite',
    database: home.file,
    // Given plainly, TypeORM would ask sqlite3 to trace the stack of every call, which costs more than the calls do.
    driver: guardedSqlite,
    entities: rows,
    flags: sqlite3.OPEN_READONLY,
    busyTimeout: 5000,
    synchronize: false,
  }).initialize();
  await source.query('PRAGMA query_only = ON');
  return source;
};
