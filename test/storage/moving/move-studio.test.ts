import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { move } from '../../../src/app/commands/move.js';
import { readConfig } from '../../../src/app/config.js';
import { openForWriting } from '../../../src/storage/connection/data-source.js';
import { fillEmptyHome, moveStudio } from '../../../src/storage/moving/move-studio.js';
import { digestsOf, type PortableRow, putRows, tablesOf } from '../../../src/storage/moving/portable-rows.js';
import { withSnapshot } from '../../../src/storage/moving/snapshot.js';
import { freshPostgres, isPostgresLeftOut } from '../../support/postgres.js';

/** Keys whose order differs between a dictionary and an alphabet of bytes, and values that are easily lost. */
const KEYS = ['a', 'B', 'ä', 'Z', '_', '10', '9', 'é'];
const STRANGE = [
  '',
  ' lead and trail ',
  '“inside leg” {{x}} é\n2nd line\r\n',
  '🧵\u200b\u202e',
  "=1+1'--",
  'null',
];

/** Two or more rows in every table there is, each column filled with what its type can hold; references point to what is there. */
const fillEveryTable = async (source: DataSource): Promise<void> => {
  await source.transaction(async (manager) => {
    for (const table of tablesOf(source)) {
      const isKeyed = table.foreignKeys.length > 0;
      const keys = isKeyed ? KEYS.slice(0, 3) : KEYS;
      const rows = keys.map((id, place): PortableRow => {
        const columns = table.columns.map(({ databaseName, type, isNullable }) => {
          const refers = table.foreignKeys.find(({ columnNames }) => columnNames.includes(databaseName));
          if (databaseName === 'id') return ['id', id] as const;
          if (refers) return [databaseName, id] as const;
          if (isNullable && place % 2 === 1) return [databaseName, null] as const;
          if (String(type) === 'boolean') return [databaseName, place % 2 === 0] as const;
          if (String(type) === 'bigint') return [databaseName, Number.MAX_SAFE_INTEGER - place] as const;
          if (String(type) === 'integer') return [databaseName, place - 2_147_483_648] as const;
          return [databaseName, `${STRANGE[place % STRANGE.length]}${id}`] as const;
        });
        return Object.fromEntries(columns);
      });
      await manager.query(source.options.type === 'sqlite' ? `DELETE FROM "${table.tableName}"` : 'SELECT 1');
      await putRows(manager, table, rows);
    }
  });
};

describe.skipIf(isPostgresLeftOut)('moving a studio', () => {
  let root: string;
  let postgres: Awaited<ReturnType<typeof freshPostgres>>;
  const at = (name: string): string => join(root, name);
  const config = () => readConfig({ DATA_DIR: at('studio') });
  const tablesThere = async (): Promise<number> => {
    const client = new Client({ connectionString: postgres.url });
    await client.connect();
    const { rows } = await client.query(
      "SELECT count(*)::int AS many FROM information_schema.tables WHERE table_schema = 'public'",
    );
    await client.end();
    return rows[0].many;
  };

  beforeAll(async () => {
    root = mkdtempSync(join(tmpdir(), 'bastings-move-'));
    postgres = await freshPostgres();
    const source = await openForWriting({ kind: 'sqlite', file: at('first.sqlite') });
    await source.query('PRAGMA foreign_keys = ON');
    await fillEveryTable(source);
    await source.destroy();
  });
  afterAll(async () => {
    await postgres.drop();
    rmSync(root, { recursive: true, force: true });
  });

  it('is refused while the server runs, and where there is nothing', async () => {
    const home = { kind: 'sqlite', file: at('first.sqlite') } as const;
    const server = await openForWriting(home);
    const to = { kind: 'postgres', url: postgres.url } as const;
    await expect(moveStudio(home, to, root)).rejects.toThrow('Stop the server');
    await server.destroy();
    await expect(move(config(), postgres.url)).rejects.toThrow('There is no file');
    expect(await tablesThere()).toBe(0);
  });

  it('that fails midway leaves the target empty, and no copy lying about', async () => {
    const home = { kind: 'postgres', url: postgres.url } as const;
    const expected = [{ table: 'client', rows: 1, sha256: 'another' }];
    const broken = fillEmptyHome(home, expected, async (manager) => {
      const [table] = tablesOf(manager.connection);
      await manager.query('SELECT 1');
      expect(table).toBeDefined();
      throw new Error('the cable was pulled');
    });
    await expect(broken).rejects.toThrow('the cable was pulled');
    await expect(fillEmptyHome(home, expected, async () => undefined)).rejects.toThrow(
      'differs from what was sent',
    );
    expect(await tablesThere()).toBe(0);
    const file = at('broken.sqlite');
    await expect(fillEmptyHome({ kind: 'sqlite', file }, expected, async () => undefined)).rejects.toThrow(
      'differs from what was sent',
    );
    expect(readdirSync(root)).toEqual(['first.sqlite', 'studio']);
    expect(readdirSync(at('studio'))).toEqual([]);
  });

  it('takes every row of every table to PostgreSQL and back, the same to the letter', async () => {
    const first = { kind: 'sqlite', file: at('first.sqlite') } as const;
    const there = await moveStudio(first, { kind: 'postgres', url: postgres.url }, root);
    expect(there.every(({ rows }) => rows >= 3)).toBe(true);
    expect(there.length).toBeGreaterThan(70);
    expect(await withSnapshot(first, root, digestsOf)).toEqual(there);

    const onPostgres = readConfig({ DATA_DIR: at('studio'), DATABASE_URL: postgres.url });
    const said = await move(onPostgres, 'back.sqlite', root);
    expect(said[0]).toMatch(/^moved: \d+ rows of \d+ tables, each counted and compared by hash$/);
    expect(said.join()).not.toContain(postgres.url);
    const back = await withSnapshot({ kind: 'sqlite', file: at('back.sqlite') }, root, digestsOf);
    expect(back).toEqual(there);

    await expect(move(onPostgres, 'back.sqlite', root)).rejects.toThrow(
      'There is a studio in that place already',
    );
    writeFileSync(at('letter.txt'), 'Dear Corvin');
    await expect(move(onPostgres, 'letter.txt', root)).rejects.toThrow('already');
    expect(readFileSync(at('letter.txt'), 'utf8')).toBe('Dear Corvin');
    await expect(moveStudio(first, { kind: 'postgres', url: postgres.url }, root)).rejects.toThrow('already');
    expect(existsSync(at('back.sqlite.incoming'))).toBe(false);
    // A changed letter shows.
    const source = await openForWriting({ kind: 'sqlite', file: at('back.sqlite') });
    await source.query(`UPDATE client SET notes = notes || ' ' WHERE id = 'a'`);
    const changed = await digestsOf(source.manager);
    expect(
      changed.filter(({ sha256 }, place) => sha256 !== there[place]?.sha256).map(({ table }) => table),
    ).toEqual(['client']);
    await source.destroy();
  });
});
