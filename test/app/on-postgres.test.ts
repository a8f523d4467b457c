import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freshPostgres, isPostgresLeftOut } from '../support/postgres.js';
import { openTestStudio, type TestStudio } from '../support/studio.js';

describe.skipIf(isPostgresLeftOut)('the whole studio on PostgreSQL', () => {
  let studio: TestStudio;
  let drop: () => Promise<void>;
  beforeAll(async () => {
    const postgres = await freshPostgres();
    drop = postgres.drop;
    studio = await openTestStudio({ DATABASE_URL: postgres.url });
  });
  afterAll(async () => {
    await studio.close();
    await drop();
  });

  it('adds, finds, shows what was done, undoes and backs up as on SQLite', async () => {
    const once = randomUUID();
    const both = await Promise.all([1, 2].map(() => studio.post('/clients', { once, name: 'Zoë Ångström' })));
    expect(new Set(both.map(({ headers }) => headers.location)).size).toBe(1);
    const url = String(both[0]?.headers.location).split('?')[0]!;
    expect((await studio.get('/find?q=angstrom+c-0001')).text).toContain(`href="${url}"`);
    const [act] = (await studio.api('GET', `/api/history?about=client/${url.split('/').at(-1)}`)).json()
      .items;
    expect(act.sentence).toBe('Added the client Zoë Ångström');
    const made = await studio.post('/house/backup', { once: randomUUID() });
    const page = await studio.get(String(made.headers.location));
    expect(page.text).toContain('whose own dump is the first choice');
    const { items } = (await studio.api('GET', '/api/backups')).json();
    const { text } = await studio.get(`/house/backup/${items[0].name}`);
    expect(text.split('\n').filter((line) => line.includes('Zoë Ångström')).length).toBeGreaterThan(1);
    const undone = await studio.post(`/history/${act.id}/undo`, { once: randomUUID() });
    expect(undone.status).toBe(303);
    expect((await studio.get(url)).status).toBe(404);
  });

  it('lets one of two corrections of the same version in', async () => {
    const made = await studio.post('/clients', { once: randomUUID(), name: 'Two Hands' });
    const url = String(made.headers.location).split('?')[0]!;
    const both = await Promise.all(
      ['1', '2'].map((phone) =>
        studio.post(url, { once: randomUUID(), version: '1', name: 'Two Hands', phone }),
      ),
    );
    expect(both.map(({ status }) => status).toSorted()).toEqual([303, 409]);
  });

  it('brings garments in by operation, lets them teach, and reads lessons, promises and the year', async () => {
    const brought = await studio.api('POST', '/api/lessons/import', {
      text: 'No;Type;Operation;Planned;Took\n7;waistcoat;Rand;60;90\n7;waistcoat;Knopf;0;40\n',
      headed: true,
      columns: [
        { to: 'garment' },
        { to: 'type' },
        { to: 'operation' },
        { to: 'planned', unit: 'minutes' },
        { to: 'took', unit: 'minutes' },
      ],
      works: ['Rand', 'Knopf'].map((said) => ({ said, means: 'own hand' })),
    });
    expect([brought.status, brought.json()]).toEqual([201, { garments: 1, leftOut: 0 }]);
    const { items } = (await studio.api('GET', '/api/lessons/operations')).json();
    expect(items).toEqual(expect.arrayContaining([expect.objectContaining({ kind: 'rand', garments: 1 })]));
    for (const url of [
      '/lessons',
      '/lessons/garment-types/waistcoat',
      '/lessons/proof',
      '/bench/promises',
      '/rates/year',
    ])
      expect([url, (await studio.get(url)).status]).toEqual([url, 200]);
  });
});
