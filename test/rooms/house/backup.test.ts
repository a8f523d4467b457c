import { randomUUID } from 'node:crypto';
import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { secretHash } from '../../../src/app/sign-in/secrets.js';
import { Backups } from '../../../src/storage/backup/backups.js';
import { checkFile } from '../../../src/storage/backup/sqlite-copy.js';
import { accountBook } from '../../../src/storage/books/account-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

describe('the backup page', () => {
  it('says what a backup is while there is none', async () => {
    const { status, text } = await studio.get('/house/backup');
    expect(status).toBe(200);
    expect(text).toContain('There is no backup yet');
    expect(text).toContain('Whoever has a backup can read it');
    expect((await studio.get('/house')).text).toContain('While the program runs, one is made every day.');
    expect(text).toContain('Make a backup now');
  });

  it('makes one at a press, lists it by moment and size, and gives the whole file', async () => {
    const made = await studio.post('/house/backup', { once: randomUUID() });
    expect(made.status).toBe(303);
    const { text } = await studio.get(String(made.headers.location));
    expect(text).toContain('A backup was made and checked');
    expect(text).toContain('2 March 2026, 09:00');
    expect(text).toMatch(/\d+(\.\d)? [kM]B/);
    const href = /href="(\/house\/backup\/[^"]+)"/.exec(text)?.[1] ?? '';
    const answer = await studio.app.inject({ method: 'GET', url: href, headers: { cookie: studio.cookie } });
    expect(answer.headers['content-disposition']).toContain(
      'attachment; filename="bastings-2026-03-02T09-00-00Z.sqlite"',
    );
    const folder = mkdtempSync(join(tmpdir(), 'bastings-taken-'));
    writeFileSync(join(folder, 'taken.sqlite'), answer.rawPayload);
    expect(await checkFile(join(folder, 'taken.sqlite'))).toMatchObject({ account: 1, studio: 1 });
    rmSync(folder, { recursive: true });
  });

  it('makes one of two presses of the same button', async () => {
    const count = async () => (await studio.api('GET', '/api/backups')).json().items.length;
    const before = await count();
    const once = randomUUID();
    const both = await Promise.all([1, 2].map(() => studio.post('/house/backup', { once })));
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    expect(await count()).toBe(before + 1);
  });

  it('is there for programs too', async () => {
    const made = await studio.api('POST', '/api/backups');
    expect(made.status).toBe(201);
    expect(made.json()).toMatchObject({ madeAt: '2026-03-02T09:00:00.000Z' });
    const taken = await studio.api('GET', String(made.headers.location));
    expect(taken.headers['content-type']).toBe('application/octet-stream');
    expect(taken.text.startsWith('SQLite format 3')).toBe(true);
  });

  it.each(['nothing.sqlite', '..%2Fbastings.sqlite', '%2e%2e%2fbastings.sqlite', '..%5cbastings.sqlite'])(
    'gives no other file: %s',
    async (name) => {
      expect((await studio.get(`/house/backup/${name}`)).status).toBe(404);
    },
  );

  it('warns in words of an old one, on the House page too', async () => {
    studio.clock.forward(4 * 24 * 60);
    for (const url of ['/house', '/house/backup']) {
      const { text } = await studio.get(url);
      expect(text).toContain('The last good backup was made on 2 March 2026, 09:00.');
      expect(text).toContain('The last good backup is 4 days old.');
    }
    expect((await studio.api('GET', '/api/backups')).json()).toMatchObject({ wholeDays: 4, isOld: true });
    await studio.api('POST', '/api/backups');
    expect((await studio.get('/house')).text).not.toContain('days old');
  });

  it('says that a folder cannot be written to, and what to do', async () => {
    const { folder } = studio.app.get(Backups);
    renameSync(folder, `${folder}-aside`);
    writeFileSync(folder, '');
    const failed = await studio.post('/house/backup', { once: randomUUID() });
    expect(failed.status).toBe(507);
    expect(failed.text).toContain('cannot be written to, so no backup was made');
    rmSync(folder);
    renameSync(`${folder}-aside`, folder);
    expect((await studio.get('/house')).text).toMatch(
      /The backup of 6 March 2026, 09:00 failed\. The folder/,
    );
    expect((await studio.post('/house/backup', { once: randomUUID() })).status).toBe(303);
    expect((await studio.get('/house')).text).not.toContain('failed');
    studio.clock.forward(-4 * 24 * 60);
  });

  it('is the owner’s alone', async () => {
    await studio.unit.write(studio.visit, async (writing) => {
      const id = writing.newId();
      await accountBook.open(writing, { id, name: 'Maker', role: 'maker', passphraseHash: 'none' });
      await accountBook.addToken(writing, { accountId: id, name: 'maker', secretHash: secretHash('maker') });
    });
    const maker = { authorization: 'Bearer maker' };
    for (const [method, url] of [
      ['GET', '/api/backups'],
      ['POST', '/api/backups'],
      ['GET', '/api/backups/bastings-2026-03-02T09-00-00Z.sqlite'],
      ['GET', '/house/backup'],
      ['GET', '/house/backup/bastings-2026-03-02T09-00-00Z.sqlite'],
    ] as const)
      expect([url, (await studio.api(method, url, undefined, maker)).status]).toEqual([url, 403]);
  });
});
