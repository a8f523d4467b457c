import { request } from 'node:http';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
let address: string;

beforeAll(async () => {
  studio = await openTestStudio();
  address = await studio.listen();
});

afterAll(() => studio.close());

type Told = { status: number | undefined; headers: Record<string, unknown>; bytes: number };

/** Asked by Node's own client, which tells a body where none should be. */
const ask = (method: string, path: string): Promise<Told> =>
  new Promise((resolve, reject) => {
    const asked = request(`${address}${path}`, { method, headers: { cookie: studio.cookie } }, (answer) => {
      let bytes = 0;
      answer.on('data', (piece: Buffer) => {
        bytes += piece.length;
      });
      answer.on('end', () => resolve({ status: answer.statusCode, headers: answer.headers, bytes }));
    });
    asked.on('error', reject);
    asked.end();
  });

/** RFC 9110, 9.3.2: the same headers as GET would have, and no body. */
describe('HEAD', () => {
  for (const path of [
    '/',
    '/sign-in',
    '/clients',
    '/api/clients',
    '/nowhere',
    '/assets/thimble.svg',
    '/assets/vendor/turbo.js',
  ])
    it(`tells of ${path} what GET tells, without its body`, async () => {
      const [whole, head] = [await ask('GET', path), await ask('HEAD', path)];
      expect(head.status).toBe(whole.status);
      for (const name of ['content-type', 'content-length', 'location', 'cache-control'])
        expect(head.headers[name], name).toBe(whole.headers[name]);
      expect(head.bytes).toBe(0);
    });

  it('changes nothing where only a form is taken', async () => {
    expect((await ask('HEAD', '/sign-out')).status).toBe(404);
    expect((await ask('GET', '/clients')).status).toBe(200);
  });
});
