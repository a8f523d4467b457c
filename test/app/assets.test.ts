import { readdirSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const SHEET = '/assets/css/layout.css';
const ask = (url: string, headers: Record<string, string> = {}) =>
  studio.app.inject({ method: 'GET', url, headers });

describe('the look', () => {
  it('comes packed to whoever takes it so, the same the second time and for several at once', async () => {
    const file = readFileSync('templates/assets/css/layout.css');
    const asked = await Promise.all([1, 2, 3].map(() => ask(SHEET, { 'accept-encoding': 'gzip, br' })));
    for (const answer of [...asked, await ask(SHEET, { 'accept-encoding': 'gzip' })]) {
      expect(answer.headers['content-encoding']).toBe('gzip');
      expect(answer.headers.vary).toContain('accept-encoding');
      expect(Number(answer.headers['content-length'])).toBeLessThan(file.length / 2);
      expect(gunzipSync(answer.rawPayload)).toEqual(file);
    }
  });

  it('comes as it is to whoever does not, and not at all to whoever has it', async () => {
    const plain = await ask(SHEET);
    expect(plain.headers['content-encoding']).toBeUndefined();
    expect(plain.rawPayload).toEqual(readFileSync('templates/assets/css/layout.css'));
    const { etag } = plain.headers;
    expect((await ask(SHEET, { 'accept-encoding': 'gzip', 'if-none-match': String(etag) })).statusCode).toBe(
      304,
    );
  });

  it('is one sheet that holds every sheet of the house once, packed, and known again', async () => {
    const url = '/assets/css/look.css';
    const sheets = readdirSync('templates/assets/css').map((name) =>
      readFileSync(`templates/assets/css/${name}`, 'utf8'),
    );
    const { payload, headers } = await ask(url);
    expect(headers['content-type']).toContain('text/css');
    for (const sheet of sheets) expect(payload.split(sheet)).toHaveLength(2);
    const packed = await ask(url, { 'accept-encoding': 'gzip' });
    expect(gunzipSync(packed.rawPayload).toString('utf8')).toBe(payload);
    expect((await ask(url, { 'if-none-match': String(headers.etag) })).statusCode).toBe(304);
    const page = (await studio.get('/clients')).text;
    expect(page.match(/<link rel="stylesheet"[^>]*>/g)).toEqual([
      '<link rel="stylesheet" href="/assets/css/look.css" data-turbo-track="reload">',
    ]);
  });

  it('packs scripts from packages, and leaves fonts and pictures alone', async () => {
    const headers = { 'accept-encoding': 'gzip' };
    expect((await ask('/assets/vendor/turbo.js', headers)).headers['content-encoding']).toBe('gzip');
    for (const url of ['/assets/handbook/measure.webp', '/assets/css/nothing.css']) {
      expect((await ask(url, headers)).headers['content-encoding'], url).toBeUndefined();
    }
    expect((await ask('/assets/css/nothing.css', headers)).statusCode).toBe(404);
  });
});
