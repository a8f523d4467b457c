import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makingBook } from '../../../src/storage/books/making-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const post = (url: string, fields: Record<string, string>) =>
  studio.post(url, { once: randomUUID(), ...fields });
const OPERATION = {
  name: 'Smocking, one panel',
  stage: 'make',
  mode: 'hand',
  driver: 'each',
  typicalCount: '2',
  fixedMinutes: '',
  minutesPerUnit: '90',
  basting: 'no',
  isAlternative: 'no',
};
const one = async (type: string, name: string) =>
  (await makingBook.operations(studio.read, type)).find((known) => known.name === name);

describe('garment types and operations', () => {
  it('are listed with what a plan begins with, and each time with where it comes from', async () => {
    const list = await studio.get('/house/making');
    expect(list.text).toContain('Lounge jacket');
    expect(list.text).toContain('a price list');
    const { text } = await studio.get('/house/making/lounge-jacket');
    expect(text).toContain('starting value');
    expect(text).toContain('common practice, no source');
    expect(text).toContain('Baste canvas to foreparts');
  });

  it('become ours when their time is changed, and starting values again when that is undone', async () => {
    const known = (await one('lounge-jacket', 'Draft the pattern'))!;
    const url = `/house/making/lounge-jacket/operations/${known.id}`;
    expect((await studio.get(url)).text).toContain('value="3:00"');
    const fields = { ...OPERATION, name: known.name, stage: 'draft', mode: 'bench', driver: 'once' };
    const answer = await post(url, { ...fields, version: '1', fixedMinutes: '2h30' });
    expect(answer.status).toBe(303);
    const changed = (await one('lounge-jacket', 'Draft the pattern'))!;
    expect([changed.fixedMinutes.toFixed(), changed.minutesPerUnit.toFixed()]).toEqual(['150', '0']);
    expect([changed.fromStartingValues, changed.source]).toEqual([false, 'ours']);
    expect((await post(url, { ...fields, version: '1', fixedMinutes: '60' })).status).toBe(409);
    const act = new URL(String(answer.headers.location), 'http://x').searchParams.get('done');
    await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/house/making' });
    expect((await one('lounge-jacket', 'Draft the pattern'))!.fromStartingValues).toBe(true);
  });

  it('can be added to, type and operation, and taken off', async () => {
    const added = await post('/house/making/new', { name: 'Smock', plural: 'smocks' });
    expect(String(added.headers.location)).toMatch(/^\/house\/making\/smock\?/);
    expect((await studio.get('/house/making/smock')).text).toContain('begins empty');
    expect((await post('/house/making/new', { name: 'smock', plural: 'smocks' })).status).toBe(422);
    expect((await post('/house/making/smock/operations/new', OPERATION)).status).toBe(303);
    const { text } = await studio.get('/house/making/smock');
    expect(text).toContain('90 min each');
    expect(text).toContain('2 each');
    const known = (await one('smock', OPERATION.name))!;
    expect([known.no, known.kind]).toEqual([1, 'own-smocking-one-panel']);
    expect((await studio.get(`/house/making/gown/operations/${known.id}`)).status).toBe(404);
    const gone = await post(`/house/making/smock/operations/${known.id}/remove`, { version: '1' });
    expect(gone.status).toBe(303);
    expect(await one('smock', OPERATION.name)).toBeUndefined();
  });

  it('take names in other scripts and markup as text', async () => {
    await post('/house/making/new', { name: 'كندورة <b>{{x}}</b>', plural: 'كنادير' });
    expect((await studio.get('/house/making')).text).toContain('كندورة &lt;b&gt;{{x}}&lt;/b&gt;');
  });

  it.each([
    ['name', ''],
    ['name', 'x'.repeat(400)],
    ['stage', 'sew'],
    ['minutesPerUnit', '-1'],
    ['minutesPerUnit', 'NaN'],
    ['fixedMinutes', '1e308'],
    ['typicalCount', '1234567890123'],
  ])('refuse an operation with %s “%s” and keep what was typed', async (field, typed) => {
    const answer = await post('/house/making/cape/operations/new', { ...OPERATION, [field]: typed });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(`href="#field-${field}"`);
    expect(answer.text).toMatch(/name="typicalCount"|name="name"/);
  });

  it('need a time', async () => {
    const answer = await post('/house/making/cape/operations/new', { ...OPERATION, minutesPerUnit: '' });
    expect(answer.text).toContain('Say how long it takes');
  });
});

describe('measuring lists', () => {
  it('are put in order by numbers, without a place left out', async () => {
    const { text } = await studio.get('/house/making/cape/measures');
    expect(text).toContain(
      'name="place.cape-sweep" type="text" class="figure" inputmode="decimal" value="60"',
    );
    const places = { 'place.stature': '5', 'place.cape-sweep': '10', 'place.neck-base-girth': '10' };
    expect((await post('/house/making/cape/measures', places)).status).toBe(303);
    expect((await makingBook.type(studio.read, 'cape')).measuringList).toEqual([
      'stature',
      'cape-sweep',
      'neck-base-girth',
    ]);
    const wrong = await post('/house/making/cape/measures', { 'place.stature': 'first' });
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain('href="#field-place.stature"');
    const stray = await post('/house/making/cape/measures', { 'place.no-such': '1' });
    expect(stray.text).toContain('Nobody knows a measurement');
  });

  it('come from programs too', async () => {
    const url = '/api/house/garment-types/cape';
    const { etag } = (await studio.api('GET', url)).headers;
    const changed = await studio.api(
      'PUT',
      url,
      { measuringList: ['stature'] },
      { 'if-match': String(etag) },
    );
    expect(changed.json().measuringList).toEqual(['stature']);
    expect((await studio.api('PUT', url, { name: 'mantle' }, { 'if-match': String(etag) })).status).toBe(412);
    const { basting: _b, isAlternative: _a, fixedMinutes: _f, ...sent } = OPERATION;
    const added = await studio.api('POST', `${url}/operations`, sent);
    expect(added.status).toBe(201);
    const at = String(added.headers.location);
    const put = await studio.api('PUT', at, { ...sent, driver: 'once', fixedMinutes: 45 });
    expect(put.json()).toMatchObject({ fixedMinutes: '45', minutesPerUnit: '0' });
    expect((await studio.api('PUT', at, { ...sent, wage: 1 })).json().errors[0].pointer).toBe('/wage');
    expect((await studio.api('DELETE', at)).status).toBe(200);
  });
});
