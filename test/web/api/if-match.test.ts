import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
let garment: string;
let commission: string;
beforeAll(async () => {
  studio = await openTestStudio();
  const client = (await studio.api('POST', '/api/clients', { name: 'Corvin Haddlestone' })).json();
  const opened = await studio.api('POST', '/api/commissions', {
    clientId: client.id,
    title: 'A jacket',
    garments: [{ typeId: 'lounge-jacket', make: 'hand-where-it-shows' }],
  });
  expect(opened.status, opened.text).toBe(201);
  commission = `/api/commissions/${opened.json().id}`;
  garment = `/api/garments/${opened.json().garments[0].id}`;
});
afterAll(() => studio.close());

const past = { 'if-match': '"999"' };
const seen = (answer: { headers: Record<string, unknown> }) => ({ 'if-match': String(answer.headers.etag) });
const get = (url: string) => studio.api('GET', url);

describe('a change that comes too late', () => {
  it('takes no operation out of a plan', async () => {
    const [first] = (await get(`${garment}/plan`)).json().items;
    const url = `${garment}/plan/${first.id}`;
    expect((await studio.api('DELETE', url, undefined, past)).status).toBe(412);
    const there = await get(url);
    expect(there.json()).toEqual(first);
    expect((await studio.api('DELETE', url, undefined, seen(there))).status).toBe(200);
    expect((await get(url)).status).toBe(404);
  });

  it('puts no whole plan in place, and says the present one', async () => {
    const url = `${garment}/plan`;
    const before = await get(url);
    const items = before
      .json()
      .items.map(({ id, name, stage, mode }: Record<string, string>) => ({ id, name, stage, mode }));
    const put = (headers: Record<string, string>) => studio.api('PUT', url, { items }, headers);
    expect((await put(past)).status).toBe(412);
    const line = await studio.api('POST', url, { line: 'inside pocket 2' });
    expect(line.status, line.text).toBe(201);
    const late = await put(seen(before));
    expect(late.status).toBe(412);
    const now = await get(url);
    expect(late.json().present).toEqual(now.json());
    expect(now.json().items).toHaveLength(before.json().items.length + 1);
    const inTime = await put(seen(now));
    expect(inTime.status, inTime.text).toBe(200);
    expect(inTime.json().items).toHaveLength(before.json().items.length);
    expect(inTime.headers.etag).toBe((await get(url)).headers.etag);
    expect(inTime.headers.etag).not.toBe(now.headers.etag);
    expect((await put({ 'if-match': 'no tag' })).status).toBe(422);
    expect((await put({ 'if-match': '*' })).status).toBe(200);
  });

  it('puts no draft away', async () => {
    const begun = await studio.api('POST', `${commission}/quotes`, {});
    expect(begun.status, begun.text).toBe(201);
    const url = String(begun.headers.location);
    expect((await studio.api('POST', `${url}/remove`, {}, past)).status).toBe(412);
    const there = await get(url);
    expect(there.status).toBe(200);
    expect((await studio.api('POST', `${url}/remove`, {}, seen(there))).json()).toEqual({ removed: true });
    expect((await get(url)).status).toBe(404);
  });

  it('revokes no token', async () => {
    const { id } = (await studio.api('POST', '/api/house/tokens', { name: 'a till' })).json();
    const url = `/api/house/tokens/${id}`;
    const listed = async () =>
      (await get('/api/house/tokens')).json().items.find((one: { id: string }) => one.id === id);
    expect((await studio.api('DELETE', url, undefined, past)).status).toBe(412);
    const { version } = await listed();
    expect((await studio.api('DELETE', url, undefined, { 'if-match': `"${version}"` })).status).toBe(200);
    expect(await listed()).toBeUndefined();
  });
});
