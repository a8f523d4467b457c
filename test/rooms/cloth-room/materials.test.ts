import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const fields = (more: Record<string, string> = {}): Record<string, string> => ({
  once: randomUUID(),
  name: 'Country tweed',
  kind: 'cloth',
  unit: 'm',
  method: 'lot',
  hasNap: 'no',
  ...more,
});
const add = async (more: Record<string, string> = {}): Promise<string> => {
  const answer = await studio.post('/cloth-room/materials', fields(more));
  expect(answer.status, answer.text.replace(/<[^>]*>/g, ' ').slice(0, 1500)).toBe(303);
  return String(answer.headers.location);
};

describe('the cloth room', () => {
  it('explains itself while it is empty', async () => {
    const { status, text } = await studio.get('/cloth-room');
    expect([status, text.includes('Add the first material')]).toEqual([200, true]);
    expect((await studio.get('/cloth-room/suppliers')).text).toContain('Add the first supplier');
  });

  it('keeps a material with all that is said about it, and takes it back', async () => {
    const url = await add({
      width: '150 cm',
      patternRepeat: '4 1/4 in',
      fibres: 'warp wool, weft wool and silk',
      care: 'Brush. Steam lightly.',
      hasNap: 'yes',
      place: 'third shelf',
    });
    const { text } = await studio.get(url);
    for (const words of ['150 cm', 'warp wool, weft', 'one direction', 'third shelf', 'There is none of it'])
      expect(text).toContain(words);
    expect((await studio.get('/cloth-room?q=tweed+shelf')).text).toContain('Country tweed');
    expect((await studio.get('/cloth-room?q=nosuch')).text).toContain('Nothing of these words');
    expect((await studio.get('/find?q=country')).text).toContain(url.split('?')[0]);
    const act = new URL(url, 'http://x').searchParams.get('done');
    await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/cloth-room' });
    expect((await studio.get(url)).status).toBe(404);
  });

  it.each([
    [{ name: ' ' }, 'What is it called?'],
    [{ unit: 'hour' }, 'Say what it is counted in.'],
    [{ width: 'wide' }, 'wide'],
    [{ name: 'x'.repeat(401) }, 'At most 200 characters.'],
    [{ supplierId: 'nobody' }, 'There is no such supplier.'],
  ])('refuses %j and keeps what was typed', async (wrong, sentence) => {
    const answer = await studio.post('/cloth-room/materials', fields({ place: 'by the door', ...wrong }));
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(sentence);
    expect(answer.text).toContain('value="by the door"');
  });

  it('shows markup and other scripts as text', async () => {
    const url = await add({ name: '<b>твид</b> {{x}}' });
    expect((await studio.get(url)).text).toContain('&lt;b&gt;твид&lt;/b&gt; {{x}}');
  });

  it('shows both versions when two people correct one', async () => {
    const url = (await add()).split('?')[0]!;
    expect((await studio.post(url, fields({ version: '1', place: 'left' }))).status).toBe(303);
    const second = await studio.post(url, fields({ version: '1', place: 'right' }));
    expect(second.status).toBe(409);
    expect(second.text).toContain('value="right"');
    expect(second.text).toContain('<q>left</q>');
  });

  it('answers programs: unknown fields by name, stale tags, what is on hand', async () => {
    const sent = { name: 'Silk twist', kind: 'thread', unit: 'm', method: 'first-in-first-out' };
    const made = await studio.api('POST', '/api/materials', sent);
    expect(made.status).toBe(201);
    const url = String(made.headers.location);
    expect((await studio.api('GET', url)).json()).toMatchObject({ name: 'Silk twist', lots: [] });
    expect((await studio.api('PUT', url, { ...sent, place: 'a' }, { 'if-match': '"1"' })).status).toBe(200);
    expect((await studio.api('PUT', url, sent, { 'if-match': '"1"' })).status).toBe(412);
    const wrong = await studio.api('POST', '/api/materials', { ...sent, colour: 'red' });
    expect(wrong.json().errors).toEqual([{ pointer: '/colour', detail: 'There is no field “colour” here.' }]);
    const listed = (await studio.api('GET', '/api/materials?q=twist')).json();
    expect(listed.items).toHaveLength(1);
    expect(listed.items[0].onHand).toBeNull();
  });
});

describe('suppliers', () => {
  it('are added, corrected and found', async () => {
    const made = await studio.api('POST', '/api/suppliers', { name: 'Weir Bridge Mill', phone: '555 0133' });
    expect(made.status).toBe(201);
    const id = made.json().id;
    const { text } = await studio.get(`/cloth-room/suppliers/${id}`);
    expect(text).toContain('value="Weir Bridge Mill"');
    const corrected = await studio.post(`/cloth-room/suppliers/${id}`, {
      once: randomUUID(),
      version: '1',
      name: 'Weir Bridge Mill',
      email: 'no address',
    });
    expect([corrected.status, corrected.text.includes('An email address has an @')]).toEqual([422, true]);
    expect((await studio.get('/cloth-room/suppliers')).text).toContain('555 0133');
    expect((await studio.api('GET', '/api/suppliers?q=weir')).json().items).toHaveLength(1);
    const form = await studio.post('/cloth-room/suppliers', { once: randomUUID(), name: 'Market stall' });
    expect(form.status).toBe(303);
  });

  it('stand on their material', async () => {
    const supplier = (await studio.api('POST', '/api/suppliers', { name: 'Thread House' })).json().id;
    const url = await add({ name: 'Linen thread', kind: 'thread', supplierId: supplier });
    expect((await studio.get(url)).text).toContain(`/cloth-room/suppliers/${supplier}`);
  });
});
