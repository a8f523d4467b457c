import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aJacket, planOf } from './an-opening.js';

let studio: TestStudio;
let first: string;
let second: string;
let stranger: string;

const idOf = (url: string): string => url.split('/').at(-1)!;
const textOf = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
const draftIn = async (url: string): Promise<number> =>
  (await planOf(studio, url)).filter(({ stage }) => stage === 'draft').length;

beforeAll(async () => {
  studio = await openTestStudio();
  first = await aJacket(studio);
  const { wearerId } = (await studio.api('GET', `/api/garments/${idOf(first)}`)).json();
  const { name } = (await studio.api('GET', `/api/clients/${wearerId}`)).json();
  second = await aJacket(studio, { client: name });
  stranger = await aJacket(studio, { client: 'Isaura Pellgrove' });
});
afterAll(() => studio.close());

describe('a pattern on its hook', () => {
  let pattern: { id: string; number: string; clientId: string };

  it('is hung up from the job sheet under the next number, with what the last fitting changed on it', async () => {
    const commission = first.split('/garments/')[0]!;
    const made = await studio.api('POST', `/api${commission}/fittings`, {
      kind: 'baste',
      on: '2026-03-01',
      at: '10:00',
      garmentIds: [idOf(first)],
    });
    const url = String(made.headers.location);
    const held = { on: '2026-03-01', patternChanged: true, patternWords: 'Left shoulder raised 6 mm' };
    expect((await studio.api('PUT', `${url}/held`, held)).status).toBe(200);
    const nowhere = await studio.post(`${first}/pattern/hang-up`, { once: randomUUID(), hook: '' });
    expect(nowhere.status).toBe(422);
    expect(textOf(nowhere.text)).toContain('Where does it hang?');
    const once = randomUUID();
    const hung = await studio.post(`${first}/pattern/hang-up`, {
      once,
      hook: 'Hook 12',
      name: 'Jacket block',
    });
    expect(hung.status, textOf(hung.text)).toBe(303);
    await studio.post(`${first}/pattern/hang-up`, { once, hook: 'Hook 12', name: 'Jacket block' });
    pattern = (await studio.api('GET', `/api/garments/${idOf(first)}/pattern`)).json().pattern;
    expect(pattern).toMatchObject({
      number: 'P-001',
      hook: 'Hook 12',
      lastCorrection: 'Left shoulder raised 6 mm',
      correctedOn: '2026-03-01',
    });
    expect(textOf((await studio.get(first)).text)).toContain(
      'Cut from the pattern P-001 on Hook 12: Left shoulder raised 6 mm (1 March 2026).',
    );
    const list = await studio.get(`/clients/${pattern.clientId}/patterns`);
    expect(textOf(list.text)).toContain('P-001 Jacket block lounge jacket Hook 12 Left shoulder raised 6 mm');
  });

  it('lets the same again skip its drafting, and says so', async () => {
    const drafts = await draftIn(second);
    expect(drafts).toBeGreaterThan(0);
    expect((await studio.get(`${second}/plan/copy`)).text).toContain('Same again, from P-001');
    const again = await studio.post(`${second}/pattern/same-again`, {
      once: randomUUID(),
      from: idOf(first),
    });
    expect(again.status, textOf(again.text)).toBe(303);
    const page = await studio.get(String(again.headers.location));
    expect(textOf(page.text)).toMatch(/cut from P-001; (one|\d+) draft operations? left out/);
    expect(await draftIn(second)).toBe(0);
    expect((await planOf(studio, second)).length).toBe((await planOf(studio, first)).length - drafts);

    const act = new URL(String(again.headers.location), 'http://x').searchParams.get('done')!;
    expect((await studio.post(`/history/${act}/undo`, { once: randomUUID() })).status).toBe(303);
    expect(await draftIn(second)).toBe(drafts);
    expect((await studio.api('GET', `/api/garments/${idOf(second)}/pattern`)).json()).toEqual({
      pattern: null,
    });
  });

  it('is noted by a later fitting of a garment cut from it; drafting stays where that is wanted', async () => {
    const drafts = await draftIn(second);
    const cut = await studio.post(`${second}/pattern/cut-from`, { once: randomUUID(), pattern: pattern.id });
    expect(cut.status).toBe(303);
    expect(await draftIn(second)).toBe(drafts);
    const commission = second.split('/garments/')[0]!;
    const made = await studio.api('POST', `/api${commission}/fittings`, {
      kind: 'forward',
      on: '2026-03-02',
      at: '8:00',
      garmentIds: [idOf(second)],
    });
    const held = { on: '2026-03-02', patternChanged: true, patternWords: 'Sleeve pitch turned back 5 mm' };
    await studio.api('PUT', `${String(made.headers.location)}/held`, held);
    expect((await studio.api('GET', `/api/patterns/${pattern.id}`)).json()).toMatchObject({
      lastCorrection: 'Sleeve pitch turned back 5 mm',
      correctedOn: '2026-03-02',
    });
  });

  it('fits nobody else', async () => {
    const answer = await studio.api('PUT', `/api/garments/${idOf(stranger)}/pattern`, {
      patternId: pattern.id,
    });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('was cut for somebody else');
    expect((await studio.get(`${stranger}/plan/copy`)).text).not.toContain('Same again');
    expect((await studio.get(`/clients/${randomUUID()}/patterns`)).status).toBe(404);
  });

  it('is corrected by hand; a stale form shows both versions', async () => {
    const url = `/clients/${pattern.clientId}/patterns/${pattern.id}`;
    const fields = { name: 'Jacket block', hook: 'Drawer C', lastCorrection: '', correctedOn: '', notes: '' };
    expect((await studio.post(url, { ...fields, once: randomUUID(), version: '1' })).status).toBe(409);
    expect((await studio.post(url, { ...fields, once: randomUUID(), version: '2' })).status).toBe(303);
    expect((await studio.api('GET', `/api/patterns/${pattern.id}`)).json().hook).toBe('Drawer C');
  });
});
