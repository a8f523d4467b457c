import { DataSource } from 'typeorm';
import { describe, expect, it } from 'vitest';
import { HOLDS_NOBODY, holdings } from '../../../src/storage/holding/holdings.js';
import { rows } from '../../../src/storage/rows/rows.js';

describe('what can be held on a client', () => {
  it('is settled for every table: a new one stands in holdings or in HOLDS_NOBODY', async () => {
    const source = new DataSource({ type: 'sqlite', database: ':memory:', entities: rows });
    await source.initialize();
    const tables = source.entityMetadatas.map(({ tableName }) => tableName);
    const held = new Set(holdings.map(({ row }) => source.getMetadata(row).tableName));
    await source.destroy();
    expect(tables.filter((table) => !held.has(table) && !HOLDS_NOBODY.has(table))).toEqual([]);
    expect([...held].filter((table) => HOLDS_NOBODY.has(table))).toEqual([]);
  });
});
