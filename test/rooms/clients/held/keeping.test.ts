import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';

let studio: TestStudio;
let grown: string;
let child: string;
const add = async (body: object): Promise<string> =>
  (await studio.api('POST', '/api/clients', body)).json().id;
const away = async (): Promise<string[]> =>
  (await studio.api('GET', '/api/house/keeping')).json().longAway.map(({ name }: any) => name);

beforeAll(async () => {
  studio = await openTestStudio();
  grown = await add({ name: 'Corvin Haddlestone' });
  child = await add({ name: 'Perpetua Haddlestone', isChild: true, guardian: 'Corvin Haddlestone' });
});
afterAll(() => studio.close());

describe('how long clients are kept', () => {
  it('asks about nobody who was just here', async () => {
    expect((await studio.get('/house/keeping')).text).toContain('Nobody has been away that long');
    expect((await studio.get('/house')).text).toContain('href="/house/keeping"');
  });

  it('asks about a child sooner, and about a grown-up after six years', async () => {
    studio.clock.forward(2 * 366 * 1440);
    expect(await away()).toEqual(['Perpetua Haddlestone']);
    // Measured in between, so here in between.
    await studio.api('POST', `/api/clients/${grown}/measurements`, {
      takenOn: studio.clock.now().slice(0, 10),
      takenBy: 'Odalys Fenwright',
      values: [{ dimension: 'chest-girth', typed: '977 mm' }],
    });
    studio.clock.forward(4 * 366 * 1440);
    expect(await away()).toEqual(['Perpetua Haddlestone']);
    studio.clock.forward(2 * 366 * 1440);
    expect(await away()).toEqual(['Perpetua Haddlestone', 'Corvin Haddlestone']);
  });

  it('keeps somebody longer when told, and asks again after a year', async () => {
    const made = await studio.post('/sign-in', {
      name: 'Odalys Fenwright',
      passphrase: 'thimble wax needle chalk',
    });
    const cookie = String(made.headers['set-cookie']).split(';')[0]!;
    const { text } = await studio.get('/house/keeping', { cookie });
    expect(text).toContain(`action="/house/keeping/${grown}"`);
    expect(text).toContain(`href="/clients/${child}/erasure"`);
    const fields = { once: randomUUID() };
    expect((await studio.post(`/house/keeping/${grown}`, fields, { cookie })).status).toBe(303);
    expect((await studio.post(`/house/keeping/${grown}`, fields, { cookie })).status).toBe(303);
    expect(await away()).toEqual(['Perpetua Haddlestone']);
    expect((await studio.get(`/clients/${grown}/held`, { cookie })).text).toContain('Kept until');
    const bad = await studio.post(
      '/house/keeping',
      { once: randomUUID(), years: '2', childYears: '3' },
      { cookie },
    );
    expect(bad.status).toBe(422);
    expect(bad.text).toContain('no longer than of a grown-up');
    const settled = { once: randomUUID(), version: '0', years: '30', childYears: '30' };
    expect((await studio.post('/house/keeping', settled, { cookie })).status).toBe(303);
    expect(await away()).toEqual([]);
  });
});
