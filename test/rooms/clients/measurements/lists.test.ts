import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const change = (list: string, more: Record<string, string> = {}, type = 'cape') =>
  studio.post(`/clients/measuring-lists/${type}`, { once: randomUUID(), list, ...more });
const listOf = async (type: string) => (await studio.api('GET', `/api/measuring-lists/${type}`)).json();

describe('the measuring list of a type', () => {
  it('is changed by writing the words, one a line, in the order wanted; and undone', async () => {
    const before = await listOf('cape');
    expect((await studio.get('/clients/measuring-lists/cape')).text).toContain('Round the shoulders');
    const changed = await change('Seat\nchest girth\n\nneck base');
    expect(changed.status).toBe(303);
    expect((await listOf('cape')).list).toEqual(['hip-girth', 'chest-girth', 'neck-base-girth']);
    const act = new URL(String(changed.headers.location), 'http://x').searchParams.get('done');
    await studio.post(`/history/${act}/undo`, { once: randomUUID() });
    expect((await listOf('cape')).list).toEqual(before.list);
  });

  it('asks once about a name nobody knows, then keeps it as the studio’s own', async () => {
    const asked = await change('seat\nhood depth <i>{{x}}</i>');
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('not measured here yet. Keep as new?');
    expect(asked.text).not.toContain('<i>');
    const sure = { 'confirm.list': 'yes' };
    expect((await change('seat\nhood depth <i>{{x}}</i>', sure)).status).toBe(303);
    const client = String((await studio.api('POST', '/api/clients', { name: 'Hooded' })).json().id);
    const page = await studio.get(`/clients/${client}/measurements/new?type=cape`);
    expect(page.text).toContain('Hood depth &lt;i&gt;{{x}}&lt;/i&gt;');
  });

  it('refuses one thing twice, and names too long; shows both versions when two change it', async () => {
    expect((await change('seat\nhip girth')).text).toContain('stands twice in the list');
    expect((await change('x'.repeat(400))).text).toContain('at most 120 letters');
    const { version } = await listOf('shirt');
    expect((await change('neck', { version: String(version) }, 'shirt')).status).toBe(303);
    const late = await change('chest', { version: String(version) }, 'shirt');
    expect(late.status).toBe(409);
    expect(late.text).toContain('Saved meanwhile by someone else: <q>neck</q>');
    const stale = { 'if-match': `"${version}"` };
    expect((await studio.api('PUT', '/api/measuring-lists/shirt', { list: ['waist'] }, stale)).status).toBe(
      412,
    );
    expect((await studio.api('PUT', '/api/measuring-lists/no-such', { list: [] })).status).toBe(404);
  });
});
