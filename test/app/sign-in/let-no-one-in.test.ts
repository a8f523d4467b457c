import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cookieBounds, sessionCookieName, sessionSecretOf } from '../../../src/web/manners/session-cookie.js';
import { type OpenDoor, openDoor } from './a-door.js';

/* What the table of data/security says of the door, its cookie and the headers of every answer. */

const [NAME, PASSPHRASE] = ['Odalys Fenwright', 'thimble wax needle chalk'];
const [DESK, ELSEWHERE] = ['192.0.2.7', '198.51.100.9'];

let door: OpenDoor;
let first: string;
beforeAll(async () => {
  door = await openDoor();
});
afterAll(() => door.close());

const open = (passphrase: string) => door.post('/first-start', { code: door.code, name: NAME, passphrase });
const signIn = (from: string, passphrase = PASSPHRASE, headers: Record<string, string> = {}) =>
  door.post('/sign-in', { name: NAME, passphrase }, { from, headers });

describe('the first start', () => {
  it('is given no passphrase that is tried first, nor a short one, nor one that is the name', async () => {
    for (const easy of [
      'password12345',
      'qwertyuiop123',
      'elevenchars',
      '000000000000',
      'Odalys.Fenwright',
      'a'.repeat(401),
    ])
      expect([easy, (await open(easy)).status]).toEqual([easy, 422]);
    first = (await open(PASSPHRASE)).cookie;
    expect(first).toMatch(/^bastings/);
  });
});

describe('the cookie of the sign-in', () => {
  const asked = (host: string, protocol: 'http' | 'https', cookies: Record<string, string> = {}) => ({
    headers: { host },
    protocol,
    cookies,
  });

  it('is named by the port, so that two studios on one computer leave each other be', async () => {
    const [one, other] = ['localhost:4410', 'localhost:4411'];
    expect(sessionCookieName(asked(one, 'http'))).toBe('bastings-4410');
    expect(sessionCookieName(asked('workroom.example', 'http'))).toBe('bastings');
    const first = await signIn(DESK, PASSPHRASE, { host: one });
    const second = await signIn(DESK, PASSPHRASE, { host: other });
    const both = `${first.cookie}; ${second.cookie}`;
    await door.post('/sign-out', {}, { headers: { host: one, cookie: both } });
    expect((await door.get('/house', { host: one, cookie: both })).status).toBe(303);
    expect((await door.get('/house', { host: other, cookie: both })).location).not.toContain('/sign-in');
  });

  it('is bound to the host with TLS, where a cookie under the older name counts for nothing', () => {
    const tls = asked('workroom.example:4410', 'https', { bastings: 'planted' });
    expect(sessionCookieName(tls)).toBe('__Host-bastings-4410');
    expect(sessionSecretOf(tls)).toBeUndefined();
    expect(sessionSecretOf(asked('localhost:4410', 'http', { bastings: 'older' }))).toBe('older');
  });

  it('is secure with TLS, and always closed to scripts and to other sites', () => {
    const bounds = { path: '/', httpOnly: true, sameSite: 'lax' };
    expect(cookieBounds({ protocol: 'https' })).toEqual({ ...bounds, secure: true });
    expect(cookieBounds({ protocol: 'http' })).toEqual({ ...bounds, secure: false });
  });

  it('is a new one at every sign-in, and the one before ends', async () => {
    const again = await signIn(DESK, PASSPHRASE, { cookie: first });
    expect(again.cookie).not.toBe(first);
    expect((await door.get('/house', { cookie: first })).location).toContain('/sign-in');
    expect((await door.get('/house', { cookie: again.cookie })).location).not.toContain('/sign-in');
  });
});

describe('a guesser', () => {
  it('cannot lock out who came in from their own place before', async () => {
    expect((await signIn(DESK)).status).toBe(303);
    for (let tries = 0; tries < 8; tries += 1) await signIn(ELSEWHERE, 'wrong wrong wrong');
    expect((await signIn(ELSEWHERE)).status).toBe(429);
    expect((await signIn('203.0.113.5')).status).toBe(429);
    expect((await signIn(DESK)).status).toBe(303);
    expect((await signIn('127.0.0.1')).status).toBe(303);
  });
});

describe('every answer', () => {
  it('that is private is kept by no cache', async () => {
    const { cookie } = await signIn(DESK);
    for (const url of ['/first-run', '/house', '/api/clients', '/no-such-page'])
      expect((await door.get(url, { cookie })).headers['cache-control']).toBe('no-store');
  });

  it('tells no folder and speaks no TRACE', async () => {
    for (const url of [
      '/assets/',
      '/assets/css/',
      '/assets/../package.json',
      '/.git/config',
      '/assets/%2e%2e/%2e%2e/package.json',
    ])
      expect([url, (await door.get(url)).status === 200]).toEqual([url, false]);
    const trace = await door.app.inject({ method: 'TRACE' as 'GET', url: '/' });
    expect(trace.statusCode).toBeGreaterThanOrEqual(400);
  });
});
