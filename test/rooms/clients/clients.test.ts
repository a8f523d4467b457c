import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const add = async (fields: Record<string, string>): Promise<string> => {
  const answer = await studio.post('/clients', { once: randomUUID(), ...fields });
  expect(answer.status).toBe(303);
  return String(answer.headers.location);
};

describe('clients', () => {
  it('are added, said so, and can be undone', async () => {
    const url = await add({ name: 'Corvin Haddlestone', phone: '555 0100' });
    const page = await studio.get(url);
    expect(page.text).toContain('Added the client Corvin Haddlestone');
    const act = new URL(url, 'http://x').searchParams.get('done');
    const undone = await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/clients' });
    expect(undone.status).toBe(303);
    expect((await studio.get(url)).status).toBe(404);
  });

  it('are found by part of a name, without accents', async () => {
    await add({ name: 'Zoë Ångström' });
    expect((await studio.get('/clients?q=zoe+angs')).text).toContain('Zoë Ångström');
    expect((await studio.get('/clients?q=nobody-such')).text).toContain('Nobody of that name');
  });

  it('keep what was typed when something is missing', async () => {
    const answer = await studio.post('/clients', { once: randomUUID(), name: ' ', phone: '555 0199' });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('<title>Error:');
    expect(answer.text).toContain('Give the client’s name.');
    expect(answer.text).toContain('value="555 0199"');
  });

  it('are made once when the button is pressed twice at once', async () => {
    const once = randomUUID();
    const both = await Promise.all(
      [1, 2].map(() => studio.post('/clients', { once, name: 'Twice Pressed' })),
    );
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    expect(new Set(both.map(({ headers }) => headers.location)).size).toBe(1);
    const found = await studio.api('GET', '/api/clients?q=twice');
    expect(found.json().items).toHaveLength(1);
  });

  it('show both versions when two people correct one', async () => {
    const url = (await add({ name: 'Two Hands' })).split('?')[0]!;
    const first = await studio.post(url, { once: randomUUID(), version: '1', name: 'Two Hands', phone: '1' });
    expect(first.status).toBe(303);
    const second = await studio.post(url, {
      once: randomUUID(),
      version: '1',
      name: 'Two Hands',
      phone: '2',
    });
    expect(second.status).toBe(409);
    expect(second.text).toContain('value="2"');
    expect(second.text).toContain('Somebody changed this meanwhile');
    expect(second.text).toContain('name="version" value="2"');
  });

  it('show markup and template syntax as text', async () => {
    const url = await add({ name: '<script>alert(1)</script> {{constructor}}' });
    const { text } = await studio.get(url);
    expect(text).not.toContain('<script>alert');
    expect(text).toContain('&lt;script&gt;');
    expect(text).toContain('{{constructor}}');
  });

  it('cannot be a child without a guardian', async () => {
    const answer = await studio.post('/clients', { once: randomUUID(), name: 'Small One', isChild: 'yes' });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('Name the guardian');
  });

  it('refuse unknown fields by name in the JSON interface', async () => {
    const answer = await studio.api('POST', '/api/clients', { name: 'A', weight: 80 });
    expect(answer.status).toBe(422);
    expect(answer.json().errors).toEqual([
      { pointer: '/weight', detail: 'There is no field “weight” here.' },
    ]);
  });

  it('take If-Match, and answer a stale one with 412', async () => {
    const made = await studio.api('POST', '/api/clients', { name: 'Matched' });
    expect(made.status).toBe(201);
    const url = String(made.headers.location);
    expect(
      (await studio.api('PUT', url, { name: 'Matched', phone: '1' }, { 'if-match': '"1"' })).status,
    ).toBe(200);
    const stale = await studio.api('PUT', url, { name: 'Matched' }, { 'if-match': '"1"' });
    expect(stale.status).toBe(412);
    expect(stale.json().present.phone).toBe('1');
  });

  it('take an Idempotency-Key: the same again gives the first answer, another body is refused', async () => {
    const key = { 'idempotency-key': randomUUID() };
    const first = await studio.api('POST', '/api/clients', { name: 'Keyed' }, key);
    const again = await studio.api('POST', '/api/clients', { name: 'Keyed' }, key);
    expect(again.status).toBe(201);
    expect(again.json().id).toBe(first.json().id);
    expect((await studio.api('POST', '/api/clients', { name: 'Other' }, key)).status).toBe(422);
  });

  it('let no stranger in, and no other site press a button', async () => {
    expect((await studio.get('/clients', { cookie: '' })).status).toBe(303);
    const foreign = await studio.post('/clients', { name: 'X' }, { 'sec-fetch-site': 'cross-site' });
    expect(foreign.status).toBe(403);
    expect(
      (await studio.api('GET', '/api/clients', undefined, { authorization: 'Bearer wrong' })).status,
    ).toBe(401);
  });

  it('give a form back, filled, when the sign-in ran out in the middle', async () => {
    const referer = { cookie: '', referer: 'http://localhost/clients/new' };
    const ranOut = await studio.post('/clients', { once: randomUUID(), name: 'Half Written' }, referer);
    expect(ranOut.status).toBe(401);
    const kept = /name="kept" value="([^"]*)"/.exec(ranOut.text)![1]!.replaceAll('&quot;', '"');
    const again = { name: 'odalys fenwright', passphrase: 'thimble wax needle chalk' };
    const back = await studio.post('/sign-in', { ...again, back: '/clients/new', kept }, { cookie: '' });
    expect(back.status).toBe(303);
    const cookie = String([back.headers['set-cookie']].flat()[0]).split(';')[0]!;
    expect((await studio.get(String(back.headers.location), { cookie })).text).toContain(
      'value="Half Written"',
    );
  });
});
