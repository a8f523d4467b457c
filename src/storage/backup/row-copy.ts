import { createReadStream } from 'node:fs';
import { open } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { DataSource, type EntityManager } from 'typeorm';
import { Conflict, Invalid } from '../../domain/kernel/errors.js';
import { type DataHome, optionsOf } from '../connection/data-source.js';
import { areKnown, migrations } from '../migrations/migrations.js';
import { tablesInOrder } from '../migrations/tables-in-order.js';
import { type RowCounts, rowsIn } from './sqlite-copy.js';

/*
 * A copy for PostgreSQL: one JSON document a line. The first says what made it; each further one is a row, tables in an
 * order in which every row stands after those it refers to; the last says how many rows there were.
 */

type Head = { readonly copyOf: 'bastings'; readonly migrations: readonly string[] };
/** The last line, without which the end is missing. */
type Foot = { readonly rows: number };
type Line = { readonly table: string; readonly row: Readonly<Record<string, unknown>> };
type Bytes = { readonly $bytes: string };

const AT_ONCE = 200;

const outward = (row: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(row).map(([column, value]) => [
      column,
      Buffer.isBuffer(value) ? ({ $bytes: value.toString('base64') } satisfies Bytes) : value,
    ]),
  );

const inward = (value: unknown): unknown =>
  typeof value === 'object' && value !== null && '$bytes' in value
    ? Buffer.from((value as Bytes).$bytes, 'base64')
    : value;

/** Writes every row as it stands at one moment, then reads the file again and counts. */
export const copyRowsOut = async (home: DataHome, to: string): Promise<RowCounts> => {
  const source = await new DataSource(optionsOf(home)).initialize();
  const file = await open(to, 'wx', 0o600);
  const written: Record<string, number> = {};
  try {
    await source.transaction('REPEATABLE READ', async (manager) => {
      const done = await manager.query('SELECT name FROM migrations ORDER BY id');
      const head: Head = { copyOf: 'bastings', migrations: done.map(({ name }: { name: string }) => name) };
      await file.write(`${JSON.stringify(head)}\n`);
      for (const { tableName } of tablesInOrder(source.entityMetadatas)) {
        written[tableName] = await copyTable(manager, tableName, (text) => file.write(text));
      }
      const rows = rowsIn(written);
      await file.write(`${JSON.stringify({ rows } satisfies Foot)}\n`);
    });
    await file.sync();
  } finally {
    await file.close();
    await source.destroy();
  }
  const counted: Record<string, number> = Object.fromEntries(Object.keys(written).map((table) => [table, 0]));
  for await (const { table } of linesOf(to)) counted[table] = (counted[table] ?? 0) + 1;
  if (JSON.stringify(counted) !== JSON.stringify(written))
    throw new Conflict('The backup does not hold everything. Try again.', 'not-whole');
  return counted;
};

const copyTable = async (
  manager: EntityManager,
  table: string,
  write: (text: string) => Promise<unknown>,
): Promise<number> => {
  let count = 0;
  for (let after = ''; ; ) {
    const rows: Record<string, unknown>[] = await manager.query(
      `SELECT * FROM "${table}" WHERE id > $1 ORDER BY id LIMIT ${AT_ONCE}`,
      [after],
    );
    if (rows.length === 0) return count;
    const lines = rows.map((row) => JSON.stringify({ table, row: outward(row) } satisfies Line));
    await write(`${lines.join('\n')}\n`);
    count += rows.length;
    after = String(rows.at(-1)?.id);
  }
};

/** The first line of a copy. @throws Invalid when it is none of ours, or of a newer release */
export const headOf = async (file: string): Promise<Head> => {
  for await (const text of textLines(file)) {
    const head = readJson(text) as Partial<Head> | undefined;
    if (head?.copyOf !== 'bastings' || !Array.isArray(head.migrations)) break;
    if (!areKnown(head.migrations))
      throw new Invalid(
        'This backup was made by a newer release of the program. Use that one to restore it.',
      );
    return head as Head;
  }
  throw new Invalid('This file is not a backup made by this program.');
};

async function* linesOf(file: string): AsyncGenerator<Line> {
  let [isHead, isWhole, count] = [true, false, 0];
  for await (const text of textLines(file)) {
    const line = isHead ? undefined : (readJson(text) as Line | Foot | undefined);
    if (line && 'table' in line) {
      count += 1;
      yield line;
    } else if (!isHead) {
      isWhole = line?.rows === count;
    }
    isHead = false;
  }
  if (!isWhole) throw new Conflict('This backup is damaged: its end is missing.', 'damaged');
}

const textLines = (file: string): AsyncIterable<string> =>
  createInterface({ input: createReadStream(file), crlfDelay: Number.POSITIVE_INFINITY });

const readJson = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

/** Fills an empty database: the tables as they were when the copy was made, its rows, then whatever is newer. */
export const copyRowsIn = async (home: DataHome, from: string): Promise<RowCounts> => {
  const { migrations: then } = await headOf(from);
  const counts: Record<string, number> = {};
  const asThen = migrations.filter(({ name }) => then.includes(name));
  const old = await new DataSource({ ...optionsOf(home), migrations: asThen }).initialize();
  try {
    await old.runMigrations({ transaction: 'each' });
    await old.transaction(async (manager) => {
      for await (const { table, row } of linesOf(from)) {
        const columns = Object.keys(row);
        await manager.query(
          `INSERT INTO "${table}" (${columns.map((column) => `"${column}"`).join(', ')}) VALUES (${columns.map((_, place) => `$${place + 1}`).join(', ')})`,
          Object.values(row).map(inward),
        );
        counts[table] = (counts[table] ?? 0) + 1;
      }
      await manager.query('DELETE FROM sign_in_session');
    });
  } finally {
    await old.destroy();
  }
  const now = await new DataSource(optionsOf(home)).initialize();
  await now.runMigrations({ transaction: 'each' }).finally(() => now.destroy());
  return counts;
};
