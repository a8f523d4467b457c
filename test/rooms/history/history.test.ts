import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Door } from '../../../src/app/sign-in/door.js';
import { secretHash } from '../../../src/app/sign-in/secrets.js';
import { accountBook } from '../../../src/storage/books/account-book.js';
import { OWNER, openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

/** So long nobody stays signed in. */
let cookie = '';
const daysLater = async (days: number): Promise<void> => {
  studio.clock.forward(60 * 24 * days);
  cookie = `bastings=${await studio.app.get(Door).signIn(OWNER.name, OWNER.passphrase, '127.0.0.1')}`;
};
const get = (url: string) => studio.get(url, { cookie: cookie || studio.cookie });
const post = (url: string, fields: Record<string, string>) =>
  studio.post(url, fields, { cookie: cookie || studio.cookie });

const add = async (fields: Record<string, string>): Promise<string> => {
  const made = await post('/clients', { once: randomUUID(), ...fields });
  return new URL(String(made.headers.location), 'http://x').pathname.split('/').at(-1)!;
};
const correct = async (id: string, fields: Record<string, string>): Promise<string> => {
  const done = await post(`/clients/${id}`, { once: randomUUID(), ...fields });
  return new URL(String(done.headers.location), 'http://x').searchParams.get('done')!;
};
const acts = async (about = '') =>
  (await studio.api('GET', `/api/history?limit=100&about=${about}`)).json().items as {
    id: string;
    sentence: string;
    whyNot?: { code: string };
    changes: { table: string; did: string; fields: { field: string; from: unknown; to: unknown }[] }[];
  }[];
const undo = (act: string, back = '/clients') => post(`/history/${act}/undo`, { once: randomUUID(), back });

describe('the history of one thing', () => {
  it('says who, when in the studio’s zone, what, from and to, in words', async () => {
    await daysLater(120); // Summer: Dublin is an hour ahead of UTC.
    const id = await add({ name: 'Corvin Haddlestone', phone: '555 0100' });
    await correct(id, {
      name: 'Corvin Haddlestone',
      phone: '555 0199',
      birthDate: '1980-05-17',
      isChild: 'no',
    });
    const { status, text } = await get(`/history?about=client/${id}`);
    expect(status).toBe(200);
    expect(text).toContain('30 June 2026, 10:00');
    for (const words of ['Corrected Corvin Haddlestone', 'Odalys Fenwright', 'Phone', '555 0100', '555 0199'])
      expect(text).toContain(words);
    expect(text).toContain('Birth date');
    expect(text).toContain('17 May 1980');
    expect(text).toContain('>nothing<');
    expect(text).toMatch(/Undo: Corrected Corvin Haddlestone/);
    expect(text).not.toMatch(/birth_date|folded|>Version|Tax number/);
    expect(text.indexOf('Corrected')).toBeLessThan(text.indexOf('Added the client'));
  });

  it('is empty in a sentence, shows markup as text, and takes a strange subject calmly', async () => {
    expect((await get('/history?about=client/nobody')).text).toContain('Nothing was done here yet');
    const id = await add({ name: '<b>Bold</b> {{x}}' });
    const { text } = await get(`/history?about=client/${id}`);
    expect(text).toContain('&lt;b&gt;Bold&lt;/b&gt; {{x}}');
    expect((await get('/history?about=%25&before=')).status).toBe(200);
  });

  it('cuts what is very long, and keeps every script whole', async () => {
    const id = await add({ name: '山田 花子', notes: '𝒳'.repeat(2000) });
    const { text } = await get(`/history?about=client/${id}`);
    expect(text).toContain('山田 花子');
    expect(text).toContain(`${'𝒳'.repeat(160)}…`);
  });
});

describe('all that was done', () => {
  it('is paged by key, newest first, without losing one', async () => {
    for (let place = 0; place < 25; place += 1) await add({ name: `Paged ${place}` });
    const seen: string[] = [];
    for (let url: string | undefined = '/api/history?limit=7'; url; ) {
      const { items, next }: { items: { id: string }[]; next?: string } = (
        await studio.api('GET', url)
      ).json();
      seen.push(...items.map(({ id }) => id));
      url = next && `/api/history?limit=7&before=${next}`;
    }
    expect(seen).toEqual((await acts()).map(({ id }) => id));
    const first = await get('/history');
    const further = /href="(\/history\?before&#x3D;[^"]+)"/.exec(first.text)?.[1];
    expect((await get(further!.replace('&#x3D;', '='))).text).toContain('Newest');
  });

  it('never shows a passphrase or a token, hashed or not', async () => {
    const hash = secretHash('another token');
    await studio.unit.write(studio.visit, async (writing) => {
      const id = await accountBook.addToken(writing, {
        accountId: studio.visit.who.id,
        name: 'Till',
        secretHash: hash,
      });
      writing.says('Made an API token', 'house');
      return id;
    });
    const json = (await studio.api('GET', '/api/history?limit=100')).text;
    const { text } = await get('/history?about=house');
    expect(json).toContain('"Till"');
    expect(text).toContain('Till');
    for (const shown of [json, text]) {
      expect(shown).not.toContain(hash);
      expect(shown).not.toMatch(/argon2|passphrase_hash|secret_hash|Passphrase hash/);
    }
  });
});

describe('undo', () => {
  it('takes back from the page, says so there, and can be undone in turn', async () => {
    const id = await add({ name: 'Undone Often' });
    const about = `/history?about=client/${id}`;
    const [first] = await acts(`client/${id}`);
    const done = await undo(first!.id, about);
    expect(done.status).toBe(303);
    const { text } = await get(String(done.headers.location));
    expect(text).toContain('Undid: Added the client Undone Often');
    expect(text).toContain('This was undone already.');
    const [undoing] = await acts(`client/${id}`);
    const again = await studio.api('POST', `/api/history/${undoing!.id}/undo`);
    expect(again.status).toBe(200);
    expect((await get(`/clients/${id}`)).status).toBe(200);
  });

  it.each([
    ['changed again since', 'changed-since', 'This was changed again since'],
    ['undone already', 'already-undone', 'This was undone already'],
    ['sealed by a paper', 'sealed', 'stays on record'],
    ['older than thirty days', 'too-old', 'this one is older'],
  ])('is a clear page and 409 where it was %s', async (_, code, sentence) => {
    const id = await add({ name: 'Standing' });
    const act = await correct(id, { name: 'Standing', phone: '1' });
    if (code === 'changed-since') await correct(id, { name: 'Standing', phone: '2' });
    if (code === 'already-undone') await undo(act);
    if (code === 'sealed') await studio.unit.write(studio.visit, (writing) => writing.seal(`client/${id}`));
    if (code === 'too-old') await daysLater(31);
    const listed = (await acts(`client/${id}`)).find((one) => one.id === act);
    expect(listed?.whyNot?.code).toBe(code);
    const json = await studio.api('POST', `/api/history/${act}/undo`);
    expect([json.status, json.json().code]).toEqual([409, code]);
    const page = await undo(act);
    expect(page.status).toBe(409);
    expect(page.text).toContain(sentence);
    expect(page.text).toContain('It was this: Corrected Standing.');
    expect(page.text).toContain(`client%2F${id}"`);
    expect((await get(`/history?about=client/${id}`)).text).toContain(sentence);
  });

  it('of nothing is 404, and it leads to no other site', async () => {
    const id = await add({ name: 'Led Astray' });
    const [act] = await acts(`client/${id}`);
    const done = await undo(act!.id, '//elsewhere.example/');
    expect(done.headers.location).toMatch(/^\/\?done=/);
    expect((await studio.api('POST', '/api/history/nothing/undo')).status).toBe(404);
  });
});
