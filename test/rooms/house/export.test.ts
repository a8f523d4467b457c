import { randomUUID } from 'node:crypto';
import { rmSync, writeFileSync } from 'node:fs';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { secretHash } from '../../../src/app/sign-in/secrets.js';
import { Exports } from '../../../src/rooms/house/export/exports.js';
import { accountBook } from '../../../src/storage/books/account-book.js';
import { ExportPlace } from '../../../src/storage/moving/export/export-place.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());
const exportsOf = () => studio.app.get(Exports);

describe('the export page', () => {
  it('begins one at a press, says how far it has come, and gives the file', async () => {
    expect((await studio.get('/house')).text).toContain('href="/house/export"');
    expect((await studio.get('/house/export')).text).toContain('Write an export');
    const once = randomUUID();
    const both = await Promise.all([1, 2].map(() => studio.post('/house/export', { once })));
    expect(both.map(({ status, headers }) => [status, headers.location])).toEqual([
      [303, '/house/export'],
      [303, '/house/export'],
    ]);
    const during = await studio.get('/house/export');
    expect(during.text).toMatch(/Writing the export|Written on/);
    await exportsOf().idle();
    const { text } = await studio.get('/house/export');
    expect(text).toContain('Written on 2 March 2026, 09:00');
    const href = /href="(\/house\/export\/[^"]+)"/.exec(text)?.[1] ?? '';
    const answer = await studio.app.inject({ method: 'GET', url: href, headers: { cookie: studio.cookie } });
    expect(answer.headers['content-type']).toBe('application/zip');
    expect(answer.headers['content-disposition']).toContain('bastings-export-2026-03-02T09-00-00Z.zip');
    expect(strFromU8(unzipSync(answer.rawPayload)['README.txt']!)).toContain('Quillmere Workroom');
  });

  it('is there for programs, keeps the last one only, and gives no other file', async () => {
    studio.clock.forward(1);
    expect((await studio.api('POST', '/api/house/export')).status).toBe(202);
    await exportsOf().idle();
    const { now, written } = (await studio.api('GET', '/api/house/export')).json();
    expect([now, written.name]).toEqual([null, 'bastings-export-2026-03-02T09-01-00Z.zip']);
    for (const name of ['bastings-export-2026-03-02T09-00-00Z.zip', '..%2Fbastings.sqlite', 'nothing.zip'])
      expect((await studio.api('GET', `/api/house/export/${name}`)).status).toBe(404);
    expect((await studio.api('GET', `/api/house/export/${written.name}`)).status).toBe(200);
  });

  it('says why one was not written, and the next press tries again', async () => {
    const { folder } = studio.app.get(ExportPlace);
    rmSync(folder, { recursive: true });
    writeFileSync(folder, '');
    await studio.post('/house/export', { once: randomUUID() });
    await exportsOf().idle();
    expect((await studio.get('/house/export')).text).toContain('The export was not written.');
    rmSync(folder);
    await studio.post('/house/export', { once: randomUUID() });
    await exportsOf().idle();
    const { text } = await studio.get('/house/export');
    expect(text).not.toContain('was not written');
    expect(text).toContain('Written on');
  });

  it('is the owner’s alone', async () => {
    await studio.unit.write(studio.visit, async (writing) => {
      const id = writing.newId();
      await accountBook.open(writing, { id, name: 'Books', role: 'bookkeeper', passphraseHash: 'none' });
      await accountBook.addToken(writing, { accountId: id, name: 'books', secretHash: secretHash('books') });
    });
    for (const [method, url] of [
      ['GET', '/api/house/export'],
      ['POST', '/api/house/export'],
      ['GET', '/house/export'],
    ] as const)
      expect((await studio.api(method, url, undefined, { authorization: 'Bearer books' })).status).toBe(403);
  });
});
