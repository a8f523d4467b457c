import { randomUUID } from 'node:crypto';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { DataSource, type EntityManager } from 'typeorm';
import { Conflict } from '../../domain/kernel/errors.js';
import { copyFile } from '../backup/sqlite-copy.js';
import { type DataHome, openForReading, optionsOf } from '../connection/data-source.js';
import { migrations } from '../migrations/migrations.js';

/** Does the work on the data as it stands at one moment, while the studio works on. `folder` holds a copy meanwhile. */
export const withSnapshot = async <T>(
  home: DataHome,
  folder: string,
  work: (manager: EntityManager) => Promise<T>,
): Promise<T> => {
  if (home.kind === 'postgres') {
    const source = await new DataSource(optionsOf(home)).initialize();
    try {
      return await source.transaction('REPEATABLE READ', async (manager) => {
        await mustBeOfToday(manager);
        return work(manager);
      });
    } finally {
      await source.destroy();
    }
  }
  const file = join(folder, `bastings-snapshot-${randomUUID()}.unfinished-open`);
  try {
    await rm(file, { force: true });
    await copyFile(home.file, file);
    const source = await openForReading({ kind: 'sqlite', file });
    try {
      await mustBeOfToday(source.manager);
      return await work(source.manager);
    } finally {
      await source.destroy();
    }
  } finally {
    for (const end of ['', '-wal', '-shm', '-journal']) await rm(`${file}${end}`, { force: true });
  }
};

/** The rows are read as this release knows them, so the tables must be its own. */
const mustBeOfToday = async (manager: EntityManager): Promise<void> => {
  const done: { name: string }[] = await manager.query('SELECT name FROM migrations');
  const names = new Set(done.map(({ name }) => name));
  if (names.size !== migrations.length || !migrations.every(({ name }) => names.has(name)))
    throw new Conflict(
      'This data was kept by another release of the program. Start the studio once with this one, then do it again.',
      'other-release',
    );
};
