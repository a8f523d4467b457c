import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
let makerId: string;
let phone: string;

beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const add = (fields: Record<string, string>) =>
  studio.post('/house/people', { name: 'Wilmot Larkspur', role: 'maker', passphrase: '', ...fields });

/** A form sent by somebody who is not the owner. */
const as = (cookie: string, url: string, fields: Record<string, string> = {}) =>
  studio.post(url, fields, { cookie });

const codeFor = async (id: string): Promise<string> => {
  const { text } = await studio.post(`/house/people/${id}/phones`, {});
  return /<code class="secret">([A-Z0-9-]+)<\/code>/.exec(text)?.[1] ?? '';
};

const cookieOf = (answer: { headers: Record<string, unknown> }): string =>
  String(answer.headers['set-cookie'] ?? '').split(';')[0] ?? '';

describe('people', () => {
  it('are added by name, once', async () => {
    const added = await add({});
    expect(added.status).toBe(303);
    makerId = String(added.headers.location).split('/').at(-1)?.split('?')[0] ?? '';
    const again = await add({ name: ' wilmot larkspur' });
    expect(again.status).toBe(422);
    expect(again.text).toContain('Somebody has this name already');
    expect((await add({ name: '' })).text).toContain('Say who it is.');
    expect((await add({ name: 'B', passphrase: 'short' })).text).toContain('At least 12 characters');
    expect((await add({ name: '<b>x</b>', role: 'tsar' })).status).toBe(422);
    expect((await studio.get('/house/people')).text).toContain('Odalys Fenwright');
  });

  it('without a passphrase sign in by none', async () => {
    for (const passphrase of ['none', '', 'thimble wax needle chalk'])
      expect((await as('', '/sign-in', { name: 'Wilmot Larkspur', passphrase })).status).toBe(422);
  });

  it('bring a phone in by a code, that is good once', async () => {
    const code = await codeFor(makerId);
    expect(code).toMatch(/^[A-Z2-9]{5}-[A-Z2-9]{5}$/);
    expect((await as('', '/pair', { code: 'AAAAA-AAAAA', phone: 'a phone' })).status).toBe(422);
    const paired = await as('', '/pair', {
      code: code.toLowerCase().replace('-', ' '),
      phone: 'the cutting table',
    });
    expect(paired.status).toBe(303);
    phone = cookieOf(paired);
    expect((await studio.get('/', { cookie: phone })).status).toBe(200);
    const spent = await as('', '/pair', { code, phone: 'another' });
    expect(spent.status).toBe(422);
    expect(spent.text).toContain('used already');
  });

  it('are refused with a code that is ten minutes old', async () => {
    const code = await codeFor(makerId);
    studio.clock.forward(11);
    expect((await as('', '/pair', { code, phone: 'late' })).status).toBe(422);
  });

  it('at the bench see no price, no address, no house', async () => {
    for (const path of [
      '/clients',
      '/commissions',
      '/papers',
      '/rates',
      '/house',
      '/house/people',
      '/lessons',
      '/history',
      '/find?q=a',
    ])
      expect((await studio.get(path, { cookie: phone })).status, path).toBe(403);
    for (const path of ['//clients', '/%63lients', '/bench/../clients', '/bench%2f..%2fclients'])
      expect([403, 404], path).toContain((await studio.get(path, { cookie: phone })).status);
    expect((await as(phone, '/house/people', { name: 'X', role: 'owner' })).status).toBe(403);
    const { text } = await studio.get('/', { cookie: phone });
    expect(text).not.toContain('href="/rates"');
  });

  it('see prices when the owner lets them, but ask no client for money', async () => {
    const { version } = (await studio.api('GET', `/api/house/people/${makerId}`)).json();
    const said = {
      name: 'Wilmot Larkspur',
      role: 'maker',
      seesPrices: 'yes',
      passphrase: '',
      version: String(version),
    };
    expect((await studio.post(`/house/people/${makerId}`, said)).status).toBe(303);
    expect((await studio.get('/clients', { cookie: phone })).status).toBe(200);
    expect((await studio.get('/rates', { cookie: phone })).status).toBe(403);
    expect((await as(phone, '/commissions/x/quotes', {})).status).toBe(403);
    expect((await studio.post(`/house/people/${makerId}`, said)).status).toBe(409);
  });

  it('keep the books without the bench', async () => {
    const added = await add({ name: 'Tamsin Orrery', role: 'bookkeeper' });
    const id = String(added.headers.location).split('/').at(-1)?.split('?')[0] ?? '';
    const paired = await as('', '/pair', { code: await codeFor(id), phone: 'the office' });
    expect(paired.headers.location).toBe('/papers');
    const cookie = cookieOf(paired);
    expect((await studio.get('/papers', { cookie })).status).toBe(200);
    expect((await studio.get('/', { cookie })).status).toBe(403);
    expect((await as(cookie, '/clients', { name: 'Nobody' })).status).toBe(403);
  });

  it('are let in no more once a phone is revoked, and undo brings it not back', async () => {
    const { phones } = (await studio.api('GET', `/api/house/people/${makerId}`)).json();
    const revoked = await studio.post(`/house/people/${makerId}/phones/${phones[0].id}/revoke`, {});
    expect(revoked.status).toBe(303);
    expect((await studio.get('/', { cookie: phone })).status).toBe(303);
    const act = new URL(String(revoked.headers.location), 'http://here').searchParams.get('done');
    expect((await studio.post(`/history/${act}/undo`, {})).status).toBe(409);
    expect((await studio.get('/', { cookie: phone })).status).toBe(303);
  });

  it('may leave, but not the last owner, and nobody by their own hand', async () => {
    const people = (await studio.api('GET', '/api/house/people')).json().items;
    const owner = people.find(({ role }: { role: string }) => role === 'owner');
    expect((await studio.api('POST', `/api/house/people/${owner.id}/let-go`)).status).toBe(403);
    const demoted = await studio.api('PUT', `/api/house/people/${owner.id}`, {
      name: owner.name,
      role: 'maker',
    });
    expect(demoted.status).toBe(403);
    const gone = await studio.api('POST', `/api/house/people/${makerId}/let-go`);
    expect(gone.json()).toMatchObject({ left: true });
    expect((await studio.post(`/house/people/${makerId}/phones`, {})).status).toBe(409);
    expect((await studio.get('/house/people')).text).toContain('Left the workroom: Wilmot Larkspur.');
  });
});
