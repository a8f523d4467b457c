import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type OpenDoor, openDoor } from './sign-in/a-door.js';

let door: OpenDoor;
beforeEach(async () => {
  door = await openDoor();
});
afterEach(() => door.close());

const NAME = 'Odalys Fenwright';
const PASSPHRASE = 'thimble wax needle chalk';
const open = (fields: Record<string, string>) =>
  door.post('/first-start', { code: door.code, name: NAME, passphrase: PASSPHRASE, ...fields });

describe('the first start', () => {
  it('is where every page leads while nobody owns the studio; programs are told 401', async () => {
    for (const url of ['/', '/clients', '/sign-in', '/house/backup'])
      expect([url, (await door.get(url)).location]).toEqual([url, '/first-start']);
    expect((await door.get('/api/clients')).status).toBe(401);
    expect((await door.get('/first-start')).text).toContain('Setup code');
    expect((await door.get('/first-start')).text).not.toContain(door.code);
  });

  it('opens with the code from the terminal, typed in any manner, and signs in', async () => {
    expect(door.code).toMatch(/^[A-Z2-9]{5}-[A-Z2-9]{5}$/);
    const opened = await open({ code: ` ${door.code.toLowerCase()} ` });
    expect([opened.status, opened.location]).toEqual([303, '/first-run']);
    expect((await door.get('/first-run', { cookie: opened.cookie })).text).toContain(`Signed in as ${NAME}`);
    expect((await door.get('/first-start')).location).toBe('/sign-in');
  });

  it.each([
    [{ code: 'AAAAA-AAAAA' }, 'This is not the code printed in the terminal'],
    [{ code: '' }, 'Type the code printed in the terminal'],
    [{ passphrase: 'elevenchars' }, 'At least 12 characters'],
    [{ passphrase: 'x'.repeat(401) }, 'At most 400 characters'],
    [{ name: ' ' }, 'Say who you are'],
    [{ name: 'x'.repeat(101) }, 'At most 100 characters'],
  ])(
    'refuses %j with a sentence, makes nobody owner, and never gives a passphrase back',
    async (wrong: Record<string, string>, sentence) => {
      const refused = await open(wrong);
      expect(refused.status).toBe(422);
      expect(refused.text).toContain(sentence);
      expect(refused.text).not.toContain(wrong.passphrase ?? PASSPHRASE);
      expect(refused.setCookie).toBe('');
      expect((await door.get('/')).location).toBe('/first-start');
    },
  );

  it('makes one owner of two who come at once, and none afterwards', async () => {
    const both = await Promise.all([open({}), open({ name: 'Somebody Else' })]);
    expect(both.filter(({ status }) => status === 303)).toHaveLength(1);
    const late = await open({ name: 'Late' });
    expect(late.status).toBe(403);
    expect(late.text).toContain('has an owner already');
  });

  it('lets the code be guessed slowly only', async () => {
    const tries = Array.from({ length: 20 }, (_, place) => open({ code: `WRONG-${10000 + place}` }));
    const statuses = (await Promise.all(tries)).map(({ status }) => status);
    expect(statuses.filter((status) => status === 422)).toHaveLength(5);
    expect(statuses.filter((status) => status === 429)).toHaveLength(15);
    expect((await open({})).status).toBe(429);
    door.clock.forward(1);
    expect((await open({})).status).toBe(303);
  });
});
