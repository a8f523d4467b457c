import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addDays } from '../../../src/domain/kernel/calendar-date.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
let url: string;
let today: string;
const HERE = '/clients/enquiries';
const post = (at: string, fields: Record<string, string> = {}) =>
  studio.post(at, { once: randomUUID(), ...fields });
const asked = (over: Record<string, string> = {}) => ({
  name: 'Sabeline Thrushwood',
  reachedAt: '555 0187',
  what: 'A riding coat',
  askedOn: today,
  wantedBy: addDays(today, 90),
  nextOn: addDays(today, -1),
  notes: '',
  ...over,
});

beforeAll(async () => {
  studio = await openTestStudio();
  today = studio.clock.now().slice(0, 10);
});
afterAll(() => studio.close());

describe('enquiries', () => {
  it('are written down once and wait in their turn', async () => {
    expect((await studio.get('/clients')).text).toContain(`href="${HERE}"`);
    expect((await studio.get(HERE)).text).toContain('Write the first one down');
    const fields = { once: randomUUID(), ...asked() };
    const added = await studio.post(HERE, fields);
    expect(added.status).toBe(303);
    await studio.post(HERE, fields);
    url = String(added.headers.location).split('?')[0]!;
    const { text } = await studio.get(HERE);
    expect(text).toContain('One person waits for an answer or their turn.');
    expect(text).toContain('was due');
    expect((await studio.api('GET', `/api${HERE}`)).json().items).toHaveLength(1);
    expect((await studio.get('/find?q=riding')).text).toContain(url);
  });

  it.each([
    ['name', ''],
    ['name', 'x'.repeat(200)],
    ['what', ''],
    ['reachedAt', 'x'.repeat(200)],
    ['askedOn', '2199-01-01'],
    ['wantedBy', 'soon'],
    ['nextOn', '2026-02-31'],
    ['notes', 'x'.repeat(500)],
  ])('refuse %s of “%s” beside the field', async (field, typed) => {
    const answer = await post(HERE, asked({ what: 'Kept words', [field]: typed }));
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(`href="#field-${field}"`);
    if (field !== 'what') expect(answer.text).toContain('Kept words');
  });

  it('show markup as text, and are declined kindly in words to copy', async () => {
    const odd = await post(HERE, asked({ name: '<b>{{x}}</b>', what: 'a <i>cape</i>' }));
    const at = String(odd.headers.location).split('?')[0]!;
    const { text } = await studio.get(at);
    expect(text).toContain('Dear &lt;b&gt;{{x}}&lt;/b&gt;,');
    expect(text).not.toContain('<b>{{x}}');
    const moved = await post(`${at}/state`, { state: 'declined', version: '1' });
    expect(moved.status).toBe(303);
    expect((await post(`${at}/state`, { state: 'invited', version: '1' })).status).toBe(409);
    expect((await post(`${at}/state`, { state: 'commissioned', version: '2' })).status).toBe(422);
    expect((await studio.get(HERE)).text).toContain('declined kindly');
    const act = new URL(String(moved.headers.location), 'http://x').searchParams.get('done');
    await post(`/history/${act}/undo`, { back: at });
    expect((await studio.api('GET', `/api${at}`)).json().state).toBe('waiting');
    expect((await post(`${at}/edit`, { ...asked(), version: '9' })).status).toBe(409);
  });

  it('become a client and a commission with two presses', async () => {
    expect((await post(`${url}/commission`, { type: 'lounge-jacket' })).status).toBe(409);
    const once = randomUUID();
    expect((await studio.post(`${url}/client`, { once })).status).toBe(303);
    await studio.post(`${url}/client`, { once });
    expect((await post(`${url}/client`)).status).toBe(409);
    const clients = (await studio.api('GET', '/api/clients?q=Thrushwood')).json().items;
    expect(clients).toMatchObject([{ name: 'Sabeline Thrushwood', phone: '555 0187', email: '' }]);
    const unknown = await post(`${url}/commission`, { type: 'no-such' });
    expect(unknown.status).toBe(422);
    expect(unknown.text).toContain('href="#field-type"');
    const begun = await post(`${url}/commission`, { type: 'lounge-jacket' });
    expect(begun.status).toBe(303);
    const commission = String(begun.headers.location).split('?')[0]!;
    expect((await studio.get(commission)).text).toContain('A riding coat');
    const [garment] = (await studio.api('GET', `/api${commission}/garments`)).json().items;
    const job = (await studio.api('GET', `/api/garments/${garment.id}`)).json();
    expect(job.plan.length).toBeGreaterThan(5);
    expect((await post(`${url}/commission`, { type: 'lounge-jacket' })).status).toBe(409);
    expect((await post(`${url}/state`, { state: 'lapsed' })).status).toBe(409);
    const { text } = await studio.get(url);
    expect(text).toContain('Became a commission.');
    expect(text).toContain(`href="${commission}"`);
  });

  it('are kept by programs too', async () => {
    const made = await studio.api('POST', `/api${HERE}`, { name: 'Ambrose Tallowby', what: 'Breeches' });
    expect(made.status, made.text).toBe(201);
    const at = String(made.headers.location);
    expect((await studio.api('GET', at)).json().refusal).toContain('Dear Ambrose Tallowby,');
    const put = { name: 'Ambrose Tallowby', what: 'Two pairs of breeches' };
    expect((await studio.api('PUT', at, put, { 'if-match': '"1"' })).json().what).toBe(put.what);
    expect((await studio.api('PUT', at, put, { 'if-match': '"1"' })).status).toBe(412);
    const invited = { state: 'invited', nextOn: addDays(today, 3) };
    expect((await studio.api('POST', `${at}/state`, invited)).json()).toMatchObject(invited);
    expect((await studio.api('POST', `${at}/state`, { state: 'declined' })).json().nextOn ?? null).toBeNull();
    expect((await studio.api('POST', `/api${HERE}`, { ...put, weight: 80 })).status).toBe(422);
    expect((await studio.api('GET', `/api${HERE}/none`)).status).toBe(404);
  });
});
