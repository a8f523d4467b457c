import { Client } from 'pg';
import { describe, expect, it } from 'vitest';
import { freshPostgres, isPostgresLeftOut } from './postgres.js';

describe.skipIf(isPostgresLeftOut)('a fresh PostgreSQL', () => {
  it('is empty, speaks UTF-8, and is gone afterwards even with a connection left open', async () => {
    const { url, drop } = await freshPostgres();
    const client = new Client({ connectionString: url });
    client.on('error', () => undefined);
    await client.connect();
    const tables = await client.query(
      "SELECT count(*)::int AS tables FROM information_schema.tables WHERE table_schema = 'public'",
    );
    expect(tables.rows).toEqual([{ tables: 0 }]);
    expect((await client.query('SHOW server_encoding')).rows).toEqual([{ server_encoding: 'UTF8' }]);
    await drop();
    await expect(new Client({ connectionString: url }).connect()).rejects.toThrow('does not exist');
  });
});
