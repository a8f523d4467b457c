import { randomUUID } from 'node:crypto';
import { Client } from 'pg';
import { ensurePostgres, startPostgres } from '../../.setup/postgres/server.mjs';

/** `npm test` brings a server; a single test file run by hand starts its own, which ends with its process. */
const server: () => Promise<string> = (() => {
  let url: Promise<string> | undefined;
  const start = async () => {
    const programs = await ensurePostgres({ say: (line) => process.stderr.write(`${line}\n`) });
    return (await startPostgres(programs)).url;
  };
  return () => {
    url ??= process.env.TEST_POSTGRES_URL ? Promise.resolve(process.env.TEST_POSTGRES_URL) : start();
    return url;
  };
})();

/** Said on purpose with WITHOUT_POSTGRES=1, for `describe.skipIf`; the closing line of `npm test` counts it. */
export const isPostgresLeftOut = process.env.WITHOUT_POSTGRES === '1';

const asAdministrator = async (url: string, statement: string): Promise<void> => {
  const client = new Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
};

/** An empty database on a real PostgreSQL, for one test; `drop` also ends connections left open. */
export const freshPostgres = async (): Promise<{ url: string; drop: () => Promise<void> }> => {
  const administrator = await server();
  const name = `test_${randomUUID().replaceAll('-', '')}`;
  await asAdministrator(administrator, `CREATE DATABASE ${name}`);
  const own = new URL(administrator);
  own.pathname = `/${name}`;
  return {
    url: own.href,
    drop: () => asAdministrator(administrator, `DROP DATABASE ${name} WITH (FORCE)`),
  };
};
