import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { secretHash } from '../../../src/app/sign-in/secrets.js';
import { accountBook } from '../../../src/storage/books/account-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const directivesOf = (policy: unknown): Record<string, string> =>
  Object.fromEntries(
    String(policy)
      .split(';')
      .map((directive) => directive.trim().split(/ (.*)/s) as [string, string]),
  );

describe('every answer', () => {
  it.each([
    ['/', 200],
    ['/clients', 200],
    ['/sign-in', 200],
    ['/history', 200],
    ['/nothing-of-this-name', 404],
    ['/assets/css/tokens.css', 200],
    ['/assets/vendor/turbo.js', 200],
    ['/api/clients', 200],
  ])('%s forbids anything from elsewhere and any script in the page', async (url, status) => {
    const answer = await studio.get(url);
    expect(answer.status).toBe(status);
    const said = directivesOf(answer.headers['content-security-policy']);
    expect(said['default-src']).toBe("'self'");
    expect(said['object-src']).toBe("'none'");
    expect(said['frame-ancestors']).toBe("'none'");
    expect(said['base-uri']).toBe("'none'");
    expect(said['form-action']).toBe("'self'");
    expect(said['img-src']).toBe("'self' data:");
    for (const [directive, sources] of Object.entries(said)) {
      expect([directive, sources]).not.toEqual([
        directive,
        expect.stringMatching(/unsafe|https?:|\*|\w+\.\w+/),
      ]);
    }
    expect(said['script-src']).toMatch(/^'self'( 'nonce-[^']+')?$/);
    expect(answer.headers['x-content-type-options']).toBe('nosniff');
    expect(answer.headers['referrer-policy']).toBe('same-origin');
    expect(answer.headers['strict-transport-security']).toBeUndefined();
  });

  it('has a nonce of its own, and the page carries the same', async () => {
    const [one, other] = [await studio.get('/clients'), await studio.get('/clients')];
    const nonceOf = ({ headers }: typeof one) =>
      /style-src[^;]*'nonce-([^']+)'/.exec(String(headers['content-security-policy']))?.[1];
    expect(nonceOf(one)).not.toBe(nonceOf(other));
    expect(one.text.replaceAll('&#x3D;', '=')).toContain(`content="${nonceOf(one)}"`);
  });

  it('loads nothing from elsewhere and holds no script or style of its own', async () => {
    for (const url of [
      '/',
      '/clients',
      '/clients/new',
      '/sign-in',
      '/find?q=a',
      '/history',
      '/house/backup',
    ]) {
      const { text } = await studio.get(url);
      const addresses = [...text.matchAll(/ (?:src|href|action)="([^"]*)"/g)].map(
        ([, address]) => address ?? '',
      );
      expect([
        url,
        addresses.filter((address) => !/^[/#?]/.test(address) || address.startsWith('//')),
      ]).toEqual([url, []]);
      expect([url, /<script(?![^>]* src=)|<style| style="| on\w+="/.test(text)]).toEqual([url, false]);
    }
  });

  it('of a page is kept by no cache', async () => {
    for (const url of ['/clients', '/api/clients', '/nothing'])
      expect([url, (await studio.get(url)).headers['cache-control']]).toEqual([url, 'no-store']);
  });
});

describe('a change from another site', () => {
  it('is stopped at the threshold, whatever it asks for, and nothing is done', async () => {
    const before = (await studio.api('GET', '/api/clients')).text;
    const foreign: Record<string, string>[] = [
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site' },
      { 'sec-fetch-site': '', origin: 'http://elsewhere.example' },
    ];
    for (const headers of foreign) {
      for (const url of ['/clients', '/sign-out', '/sign-out-everywhere', '/house/backup', '/api/clients']) {
        const refused = await studio.post(url, { once: randomUUID(), name: 'Foreign' }, headers);
        expect([url, refused.status]).toEqual([url, 403]);
      }
    }
    expect((await studio.api('GET', '/api/clients')).text).toBe(before);
    expect((await studio.get('/clients')).status).toBe(200);
  });
});

describe('an API token', () => {
  it('opens the JSON interface until it is revoked, and undo does not bring it back', async () => {
    const secret = 'a token of a program';
    const headers = { authorization: `Bearer ${secret}` };
    const status = async () => (await studio.api('GET', '/api/clients', undefined, headers)).status;
    expect(await status()).toBe(401);
    const { value: id } = await studio.unit.write(studio.visit, async (writing) => {
      writing.says('Made an API token', 'house');
      return accountBook.addToken(writing, {
        accountId: studio.visit.who.id,
        name: 'Till',
        secretHash: secretHash(secret),
      });
    });
    expect(await status()).toBe(200);
    const revoked = await studio.unit.write(studio.visit, async (writing) => {
      writing.says('Revoked an API token', 'house');
      return accountBook.revokeToken(writing, id);
    });
    expect(await status()).toBe(401);
    expect((await studio.api('POST', `/api/history/${revoked.act}/undo`)).status).toBe(409);
    expect(await status()).toBe(401);
    expect(await accountBook.tokens(studio.read)).toHaveLength(1);
  });

  it('that is wrong is answered with 401 and how to do it, never with a page', async () => {
    for (const authorization of ['Bearer wrong', 'Bearer ', 'Basic b2Q6eA==', 'wrong']) {
      const refused = await studio.api('GET', '/api/clients', undefined, { authorization });
      expect([authorization, refused.status]).toEqual([authorization, 401]);
      expect(refused.headers['www-authenticate']).toBe('Bearer');
      expect(refused.json()).toMatchObject({ status: 401, code: 'not-signed-in' });
    }
  });
});

it('no address that a change leads to says anything of what was typed', async () => {
  const made = await studio.post('/clients', {
    once: randomUUID(),
    name: 'Corvin Haddlestone',
    phone: '5550142',
    email: 'corvin@haddlestone.example',
  });
  const uuid = '[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}';
  expect(String(made.headers.location)).toMatch(new RegExp(`^/clients/${uuid}\\?done=${uuid}$`));
  const client = String(made.headers.location).split('?')[0]!;
  const changed = await studio.post(client, {
    once: randomUUID(),
    name: 'Corvin Haddlestone',
    notes: 'low left shoulder',
  });
  expect(String(changed.headers.location)).toMatch(new RegExp(`^${client}\\?done=${uuid}$`));
  const ranOut = await studio.post(
    client,
    { once: randomUUID(), name: 'Secret Words' },
    { cookie: '', referer: `http://localhost${client}` },
  );
  expect([ranOut.status, ranOut.headers.location]).toEqual([401, undefined]);
});
