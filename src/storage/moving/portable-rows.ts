import { createHash } from 'node:crypto';
import type { DataSource, EntityManager, EntityMetadata } from 'typeorm';
import { inParts } from '../in-parts.js';
import { tablesInOrder } from '../migrations/tables-in-order.js';

/** A row with values that mean the same on both databases, columns in the order of their names. */
export type PortableRow = Readonly<Record<string, string | number | boolean | null>>;

/** How many rows a table holds, and one hash over all of them in the order of their keys. */
export type TableDigest = { readonly table: string; readonly rows: number; readonly sha256: string };

const AT_ONCE = 500;
/** SQLite takes this many values in one statement with every build of the last years; ours is far above. */
const VALUES_AT_ONCE = 900;

const isPostgres = (manager: EntityManager): boolean => manager.connection.options.type === 'postgres';

/** Every table, each after those it refers to. */
export const tablesOf = (source: DataSource): EntityMetadata[] => tablesInOrder(source.entityMetadatas);

const portable = (table: EntityMetadata, row: Record<string, unknown>): PortableRow =>
  Object.fromEntries(
    table.columns
      .map(({ databaseName, type }) => [databaseName, plainValue(String(type), row[databaseName])] as const)
      .toSorted(([a], [b]) => (a < b ? -1 : 1)),
  );

const plainValue = (type: string, value: unknown): PortableRow[string] => {
  if (value === null || value === undefined) return null;
  if (type === 'boolean') return value === true || value === 1;
  // PostgreSQL answers a bigint as text.
  if (type === 'bigint' || type === 'integer') return Number(value);
  if (typeof value !== 'string') throw new TypeError(`A ${typeof value} in a column of text.`);
  return value;
};

/**
 * The rows of a table in the order of their keys, letter by letter, whatever order the database is used to.
 * On PostgreSQL within a transaction only.
 */
export async function* rowsOf(manager: EntityManager, table: EntityMetadata): AsyncGenerator<PortableRow> {
  const name = `"${table.tableName}"`;
  if (isPostgres(manager)) {
    await manager.query(`DECLARE leaf NO SCROLL CURSOR FOR SELECT * FROM ${name} ORDER BY id COLLATE "C"`);
    for (let page: Record<string, unknown>[] = []; ; ) {
      page = await manager.query(`FETCH ${AT_ONCE} FROM leaf`);
      for (const row of page) yield portable(table, row);
      if (page.length < AT_ONCE) break;
    }
    await manager.query('CLOSE leaf');
    return;
  }
  for (let after = ''; ; ) {
    const page: Record<string, unknown>[] = await manager.query(
      `SELECT * FROM ${name} WHERE id > ? ORDER BY id LIMIT ${AT_ONCE}`,
      [after],
    );
    for (const row of page) yield portable(table, row);
    if (page.length < AT_ONCE) return;
    after = String(page.at(-1)?.id);
  }
}

/** Puts rows into a table, as they are. */
export const putRows = async (
  manager: EntityManager,
  table: EntityMetadata,
  rows: readonly PortableRow[],
): Promise<void> => {
  const columns = table.columns.map(({ databaseName }) => databaseName);
  const most = Math.max(1, Math.floor(VALUES_AT_ONCE / columns.length));
  const postgres = isPostgres(manager);
  for (const some of inParts(rows, most)) {
    const values = some.flatMap((row) =>
      columns.map((column) => {
        const value = row[column] ?? null;
        return typeof value === 'boolean' && !postgres ? Number(value) : value;
      }),
    );
    let place = 0;
    const marks = some.map(() => `(${columns.map(() => (postgres ? `$${++place}` : '?')).join(', ')})`);
    await manager.query(
      `INSERT INTO "${table.tableName}" (${columns.map((column) => `"${column}"`).join(', ')}) VALUES ${marks.join(', ')}`,
      values,
    );
  }
};

/** A hash that grows row by row. */
export const digestOfRows = (): { add(row: PortableRow): void; done(): Omit<TableDigest, 'table'> } => {
  const hash = createHash('sha256');
  let rows = 0;
  return {
    add(row) {
      hash.update(`${JSON.stringify(row)}\n`);
      rows += 1;
    },
    done: () => ({ rows, sha256: hash.digest('hex') }),
  };
};

/** Counts and hashes every table. On PostgreSQL within a transaction only. */
export const digestsOf = async (manager: EntityManager): Promise<TableDigest[]> => {
  const digests: TableDigest[] = [];
  for (const table of tablesOf(manager.connection)) {
    const digest = digestOfRows();
    for await (const row of rowsOf(manager, table)) digest.add(row);
    digests.push({ table: table.tableName, ...digest.done() });
  }
  return digests;
};

/** The first table that differs, in words; undefined where all are the same. */
export const firstDifference = (
  here: readonly TableDigest[],
  there: readonly TableDigest[],
): string | undefined => {
  const other = new Map(there.map((digest) => [digest.table, digest]));
  const differing = here.find(({ table, rows, sha256 }) => {
    const its = other.get(table);
    return its?.rows !== rows || its.sha256 !== sha256;
  });
  return (
    differing &&
    `${differing.table}: ${differing.rows} rows here, ${other.get(differing.table)?.rows ?? 'none'} there`
  );
};
