import { chmod, stat } from 'node:fs/promises';
import { Conflict } from '../../domain/kernel/errors.js';
import { type SqliteFile, withSqliteFile } from './sqlite-file.js';

/** How many rows each table holds. */
export type RowCounts = Readonly<Record<string, number>>;

export const rowsIn = (counts: RowCounts): number =>
  Object.values(counts).reduce((sum, count) => sum + count, 0);

const countAll = async (data: SqliteFile): Promise<RowCounts> => {
  const tables = await data.all(
    "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'",
  );
  const counts: Record<string, number> = {};
  for (const { name } of tables) {
    const [row] = await data.all(`SELECT count(*) AS many FROM "${String(name)}"`);
    counts[String(name)] = Number(row?.many);
  }
  return counts;
};

/**
 * Reads a whole file through: its pages, its references, and its tables.
 *
 * @throws Conflict when it is damaged
 */
export const checkFile = (file: string): Promise<RowCounts> =>
  withSqliteFile(file, async (data) => {
    const [size] = await data.all(
      'SELECT page_count * page_size AS bytes FROM pragma_page_count(), pragma_page_size()',
    );
    if (size?.bytes !== (await stat(file)).size) throw new Conflict('This file is cut off.', 'damaged');
    const pages = await data.all('PRAGMA integrity_check(1)');
    if (Object.values(pages[0] ?? {})[0] !== 'ok') throw new Conflict('This file is damaged.', 'damaged');
    const broken = await data.all('PRAGMA foreign_key_check');
    if (broken.length > 0) throw new Conflict('This file refers to rows that are not in it.', 'damaged');
    return countAll(data);
  });

/**
 * Copies a file that may be in use, as it stands at one moment, and opens the copy to see that everything is there.
 *
 * @throws Conflict when the copy is not whole
 */
export const copyFile = async (file: string, to: string): Promise<RowCounts> => {
  const acts = (data: SqliteFile): Promise<Record<string, unknown>[]> => data.all('SELECT id FROM act');
  const before = await withSqliteFile(file, async (data) => {
    const known = await acts(data);
    await data.all('VACUUM INTO ?', [to]);
    return known;
  });
  await chmod(to, 0o600);
  const counts = await checkFile(to);
  // The history only grows, so whatever it held before the copy began must be in the copy, act by act.
  const copied = new Set((await withSqliteFile(to, acts)).map(({ id }) => id));
  if (!before.every(({ id }) => copied.has(id)))
    throw new Conflict('The backup does not hold everything. Try again.', 'not-whole');
  return counts;
};
