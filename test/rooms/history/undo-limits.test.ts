import { randomUUID } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeEach(async () => {
  studio = await openTestStudio();
});
afterEach(() => studio.close());

const actOf = (location: unknown): string =>
  new URL(String(location), 'http://x').searchParams.get('done') ?? '';
const undo = (act: string) => studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/' });
const addClient = async (): Promise<{ id: string; act: string }> => {
  const added = await studio.post('/clients', { once: randomUUID(), name: 'Corvin Haddlestone' });
  const url = String(added.headers.location);
  return { id: url.split('?')[0]!.split('/').at(-1)!, act: actOf(url) };
};

describe('what cannot be undone', () => {
  it('is said in words where something made later rests on it, and nothing is half undone', async () => {
    const client = await addClient();
    const made = await studio.api('POST', '/api/commissions', {
      clientId: client.id,
      garments: [{ typeId: 'waistcoat' }],
    });
    expect(made.status).toBe(201);
    const refused = await undo(client.act);
    expect(refused.status).toBe(409);
    expect(refused.text).toContain('Something made later rests on this');
    expect((await studio.api('GET', `/api/clients/${client.id}`)).status).toBe(200);
  });

  it('keeps at least one garment in a commission', async () => {
    const client = await addClient();
    const garments = [{ typeId: 'waistcoat' }];
    const { id } = (await studio.api('POST', '/api/commissions', { clientId: client.id, garments })).json();
    const added = await studio.post(`/commissions/${id}/garments`, {
      once: randomUUID(),
      type: 'breeches',
      make: 'hand-where-it-shows',
    });
    expect(added.status).toBe(303);
    const items = (await studio.api('GET', `/api/commissions/${id}/garments`)).json();
    const first = (items.items ?? items)[0];
    expect((await studio.api('DELETE', `/api/garments/${first.id}`)).status).toBeLessThan(300);
    const refused = await undo(actOf(added.headers.location));
    expect(refused.status).toBe(409);
    expect(refused.text).toContain('at least one garment');
  });

  it('never reads money anew: a change of currency is changed forward only', async () => {
    const form = (await studio.get('/house/units')).text;
    const version = /name="version" value="(\d+)"/.exec(form)?.[1] ?? '';
    const changed = await studio.post('/house/units', {
      once: randomUUID(),
      version,
      currency: 'JPY',
      zone: 'Europe/Dublin',
      locale: 'en-GB',
      lengthUnit: 'cm',
      clothUnit: 'm',
    });
    expect(changed.status).toBe(303);
    expect((await undo(actOf(changed.headers.location))).status).toBe(409);
  });
});

describe('a secret that is shown once', () => {
  it('is not kept for the same request sent again', async () => {
    const key = { 'idempotency-key': randomUUID() };
    const first = await studio.api('POST', '/api/house/tokens', { name: 'books' }, key);
    expect(first.status).toBe(201);
    const again = await studio.api('POST', '/api/house/tokens', { name: 'books' }, key);
    expect(again.status).toBe(409);
    expect(again.text).not.toContain(first.json().secret);
  });
});

describe('a null character', () => {
  it('is refused at the threshold', async () => {
    expect((await studio.api('POST', '/api/clients', { name: 'a\u0000b' })).status).toBe(422);
    expect((await studio.get('/clients?q=%00')).status).toBe(422);
  });
});

describe('a form given back after the sign-in ran out', () => {
  it('still finds out what somebody changed meanwhile', async () => {
    const { id } = await addClient();
    const referer = { cookie: '', referer: `http://localhost/clients/${id}/correct` };
    const fields = {
      once: randomUUID(),
      version: '1',
      name: 'Corvin Haddlestone',
      notes: 'n'.repeat(30_000).slice(0, 3000),
    };
    const ranOut = await studio.post(`/clients/${id}`, fields, referer);
    expect(ranOut.status).toBe(401);
    await studio.api('PUT', `/api/clients/${id}`, { name: 'Corvin Haddlestone', phone: '555 0142' });
    const kept = /name="kept" value="([^"]*)"/.exec(ranOut.text)![1]!.replaceAll('&quot;', '"');
    const again = { name: 'Odalys Fenwright', passphrase: 'thimble wax needle chalk' };
    const back = await studio.post(
      '/sign-in',
      { ...again, back: `/clients/${id}/correct`, kept },
      { cookie: '' },
    );
    const signedIn = { cookie: String([back.headers['set-cookie']].flat()[0]).split(';')[0]! };
    const form = (await studio.get(String(back.headers.location), signedIn)).text;
    expect(form).toContain('name="version" value="1"');
    const late = await studio.post(`/clients/${id}`, { ...fields, once: randomUUID() }, signedIn);
    expect(late.status).toBe(409);
  });
});
