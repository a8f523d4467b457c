import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ApiTokenRow } from '../../../src/storage/rows/house/api-token.row.js';
import { OWNER, openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const HERE = '/house/people-and-devices';
const post = (url: string, fields: Record<string, string> = {}, headers = {}) =>
  studio.post(url, { once: randomUUID(), ...fields }, headers);
const signIn = async (passphrase: string): Promise<string> => {
  const answer = await studio.post('/sign-in', { name: OWNER.name, passphrase }, { cookie: '' });
  return String(answer.headers['set-cookie'] ?? '').split(';')[0] ?? '';
};

describe('people and devices', () => {
  it('make a token that is shown once, opens the JSON interface, and can be revoked', async () => {
    const made = await post(`${HERE}/tokens`, { name: 'the spreadsheet' });
    expect(made.status).toBe(200);
    const secret = /<code class="secret">([^<]+)</.exec(made.text)![1]!;
    const ask = () => studio.api('GET', '/api/clients', undefined, { authorization: `Bearer ${secret}` });
    expect((await ask()).status).toBe(200);
    const { text } = await studio.get(HERE);
    expect(text).toContain('the spreadsheet');
    expect(text).not.toContain(secret);
    const history = await studio.api('GET', '/api/history');
    expect(history.text).not.toContain(secret);
    // The row of this token holds its own button.
    const row = text.slice(text.indexOf('the spreadsheet'));
    const revoke = /action="(\/house\/people-and-devices\/tokens\/[^"]+\/revoke)"/.exec(row)![1]!;
    expect((await post(revoke)).status).toBe(303);
    expect((await ask()).status).toBe(401);
    expect((await studio.get(HERE)).text).not.toContain('the spreadsheet');
  });

  it('need to know what a token is for', async () => {
    const answer = await post(`${HERE}/tokens`, { name: '' });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('href="#field-name"');
  });

  it('revoke a token once, so that the moment it ended stands', async () => {
    const made = await studio.api('POST', '/api/house/tokens', { name: 'a lost till' });
    const url = String(made.headers.location);
    const ended = () => studio.read.manager.findOneByOrFail(ApiTokenRow, { id: made.json().id });
    expect((await studio.api('DELETE', url)).status).toBe(200);
    const first = await ended();
    studio.clock.forward(60);
    const second = await studio.api('DELETE', url);
    expect([second.status, second.json().code]).toEqual([409, 'already-revoked']);
    expect(await ended()).toEqual(first);
    expect((await post(`${HERE}/tokens/${made.json().id}/revoke`)).status).toBe(409);
    expect((await studio.api('DELETE', '/api/house/tokens/none')).status).toBe(404);
  });

  it('make and revoke tokens over JSON', async () => {
    const made = await studio.api('POST', '/api/house/tokens', { name: 'a till' });
    expect(made.status).toBe(201);
    expect(made.json().secret).toHaveLength(43);
    expect(JSON.stringify((await studio.api('GET', '/api/house/tokens')).json())).toContain('a till');
    expect((await studio.api('DELETE', String(made.headers.location))).status).toBe(200);
    expect((await studio.api('DELETE', '/api/house/tokens/no-such')).status).toBe(404);
  });

  it('change the passphrase only with the present one, and sign out every other browser', async () => {
    const other = await signIn(OWNER.passphrase);
    expect((await studio.get(HERE, { cookie: other })).text).toContain('signed in on 2 browsers');
    const wrong = await post(`${HERE}/passphrase`, {
      present: 'not this one at all',
      wanted: 'four other plain words',
    });
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain('This is not your present passphrase.');
    expect(wrong.text).not.toContain('four other plain words');
    const short = await post(`${HERE}/passphrase`, { present: OWNER.passphrase, wanted: 'short' });
    expect(short.text).toContain('href="#field-wanted"');
    studio.clock.forward(10);
    const right = await post(`${HERE}/passphrase`, {
      present: OWNER.passphrase,
      wanted: 'four other plain words',
    });
    expect(right.status).toBe(303);
    expect((await studio.get(HERE, { cookie: other })).status).toBe(303);
    expect((await studio.get(HERE)).text).toContain('signed in on one browser');
    studio.clock.forward(10);
    expect(await signIn(OWNER.passphrase)).toBe('');
    studio.clock.forward(10);
    expect(await signIn('four other plain words')).toMatch(/^bastings=/);
  });

  it('sign out everywhere', async () => {
    expect((await post('/sign-out-everywhere')).status).toBe(303);
    expect((await studio.get(HERE)).status).toBe(303);
  });
});
