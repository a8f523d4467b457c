import { DataSource, type EntityMetadata, type ObjectLiteral } from 'typeorm';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { optionsOf } from '../../src/storage/connection/data-source.js';
import { tablesInOrder } from '../../src/storage/migrations/tables-in-order.js';
import { freshHome, type Kind, kinds } from './kept-home.js';

/** Any value that fits the column; keys and references all say the same, so that every reference is met. */
const valueFor = (type: unknown, isKeyOrReference: boolean): unknown => {
  if (isKeyOrReference) return 'one';
  if (type === 'integer' || type === 'bigint') return 7;
  return type === 'boolean' ? true : 'kept ünversehrt';
};

const sampleOf = (table: EntityMetadata): ObjectLiteral => {
  const references = new Set(table.foreignKeys.flatMap(({ columnNames }) => columnNames));
  return Object.fromEntries(
    table.columns.map((column) => [
      column.propertyName,
      valueFor(column.type, column.isPrimary || references.has(column.databaseName)),
    ]),
  );
};

const tablesIn = async (source: DataSource): Promise<Set<string>> => {
  const runner = source.createQueryRunner();
  const present = await runner.getTables(source.entityMetadatas.map(({ tableName }) => tableName));
  if (source.options.type === 'postgres') await runner.release();
  return new Set(present.map(({ name }) => name.split('.').at(-1) ?? ''));
};

describe.each(kinds)('the migrations on %s', (kind: Kind) => {
  let source: DataSource;
  let leave: () => Promise<void>;
  beforeEach(async () => {
    const fresh = await freshHome(kind);
    leave = fresh.leave;
    source = await new DataSource(optionsOf(fresh.home)).initialize();
  });
  afterEach(async () => {
    await source.destroy();
    await leave();
  });

  const fill = async (tables: readonly EntityMetadata[]): Promise<void> => {
    for (const table of tablesInOrder(tables)) await source.manager.insert(table.target, sampleOf(table));
  };
  const expectWhole = async (names: ReadonlySet<string>): Promise<void> => {
    for (const table of source.entityMetadatas.filter(({ tableName }) => names.has(tableName))) {
      const rows = (await source.manager.find(table.target)) as ObjectLiteral[];
      expect([table.tableName, rows]).toEqual([table.tableName, [sampleOf(table)]]);
    }
  };

  it('make exactly the tables that the rows describe', async () => {
    await source.runMigrations({ transaction: 'each' });
    const { upQueries } = await source.driver.createSchemaBuilder().log();
    expect(upQueries.map(({ query }) => query)).toEqual([]);
  });

  it('are seen to differ when an index is missing', async () => {
    await source.runMigrations({ transaction: 'each' });
    const runner = source.createQueryRunner();
    await runner.dropIndex('client', 'ix_client_folded');
    if (kind === 'postgres') await runner.release();
    const { upQueries } = await source.driver.createSchemaBuilder().log();
    expect(upQueries.map(({ query }) => query).join()).toContain('ix_client_folded');
  });

  it('go up, down one by one and up again with rows in them, and touch nothing of each other', async () => {
    await source.runMigrations({ transaction: 'each' });
    const all = await tablesIn(source);
    expect(all.size).toBe(source.entityMetadatas.length);
    await fill(source.entityMetadatas);
    await expectWhole(all);

    let left = all;
    for (let steps = source.migrations.length; steps > 0; steps -= 1) {
      await source.undoLastMigration({ transaction: 'each' });
      left = await tablesIn(source);
      if (steps > 1) await expectWhole(left);
    }
    expect([...left]).toEqual([]);

    const again = await source.runMigrations({ transaction: 'each' });
    expect(again).toHaveLength(source.migrations.length);
    expect(await tablesIn(source)).toEqual(all);
    await fill(source.entityMetadatas);
    await expectWhole(all);
  });
});
