import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type OpenDoor, openDoor } from './a-door.js';

const NAME = 'Odalys Fenwright';
const PASSPHRASE = 'thimble wax needle chalk';
const DAY = 24 * 60;

let door: OpenDoor;
let first: string;
beforeEach(async () => {
  door = await openDoor();
  first = (await door.post('/first-start', { code: door.code, name: NAME, passphrase: PASSPHRASE })).cookie;
});
afterEach(() => door.close());

const signIn = (fields: Record<string, string> = {}, from = '192.0.2.1') =>
  door.post('/sign-in', { name: NAME, passphrase: PASSPHRASE, ...fields }, { from });
const isIn = async (cookie: string): Promise<boolean> =>
  (await door.get('/history', { cookie })).text.includes('Signed in as');

describe('signing in', () => {
  it('takes the name in any case, and the passphrase only as it is', async () => {
    expect((await signIn({ name: ' odalys FENWRIGHT ' })).status).toBe(303);
    expect((await signIn({ passphrase: PASSPHRASE.toUpperCase() })).status).toBe(422);
    expect((await signIn({ passphrase: `${PASSPHRASE} ` })).status).toBe(422);
  });

  it('says the same of a wrong name as of a wrong passphrase, keeps the name and gives no passphrase back', async () => {
    const [name, passphrase] = [
      await signIn({ name: 'Nobody' }),
      await signIn({ passphrase: 'not this one 1' }),
    ];
    for (const { status, text, setCookie } of [name, passphrase]) {
      expect(status).toBe(422);
      expect(text).toContain('Name or passphrase are not right.');
      expect(text).not.toMatch(/not this one 1|thimble wax/);
      expect(setCookie).toBe('');
    }
    expect(passphrase.text).toContain(`value="${NAME}"`);
  });

  it('sets a cookie that no script reads, no other site sends along, and that ends', async () => {
    const { setCookie } = await signIn();
    expect(setCookie).toMatch(/^bastings=[\w-]{43};/);
    for (const flag of ['HttpOnly', 'SameSite=Lax', 'Path=/', `Max-Age=${30 * 86_400}`])
      expect(setCookie).toContain(flag);
    expect(setCookie).not.toMatch(/Domain|Secure/);
  });

  it.each([
    ['/clients?q=a', '/clients?q=a'],
    ['//elsewhere.example/', '/'],
    ['/\\elsewhere.example', '/'],
    ['/\t/elsewhere.example', '/'],
    ['/\n/elsewhere.example', '/'],
    ['/.//elsewhere.example', '/'],
    ['https://elsewhere.example', '/'],
    ['javascript:alert(1)', '/'],
    ['', '/'],
  ])('goes back to %j as %s', async (back, location) => {
    expect((await signIn({ back })).location).toBe(location);
  });
});

describe('guessing', () => {
  const wrong = (from?: string) => signIn({ passphrase: 'wrong wrong wrong' }, from);

  it('is free five times, then each try waits twice as long, up to a quarter of an hour', async () => {
    for (let tries = 0; tries < 5; tries += 1) expect((await wrong()).status).toBe(422);
    const waits: number[] = [];
    for (let tries = 0; tries < 12; tries += 1) {
      const refused = await wrong();
      expect(refused.status).toBe(429);
      waits.push(Number(/Wait (\d+) seconds/.exec(refused.text)?.[1]));
      door.clock.forward(waits.at(-1)! / 60);
      expect((await wrong()).status).toBe(422);
    }
    expect(waits).toEqual([2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900, 900]);
  });

  it('does not help from other addresses, nor for other names from one', async () => {
    for (let tries = 0; tries < 5; tries += 1) await wrong(`192.0.2.${tries + 10}`);
    expect((await wrong('192.0.2.99')).status).toBe(429);
    for (let tries = 0; tries < 5; tries += 1) await signIn({ name: `Name ${tries}` }, '198.51.100.1');
    expect((await signIn({ name: 'Name 99' }, '198.51.100.1')).status).toBe(429);
  });

  it('does not help with many at once', async () => {
    const tries = await Promise.all(Array.from({ length: 30 }, () => wrong()));
    expect(tries.filter(({ status }) => status === 422)).toHaveLength(5);
  });

  it('hinders nobody who is right afterwards, nor who is in', async () => {
    for (let tries = 0; tries < 4; tries += 1) await wrong();
    expect((await signIn()).status).toBe(303);
    for (let tries = 0; tries < 5; tries += 1) expect((await wrong()).status).toBe(422);
    expect((await signIn()).status).toBe(429);
    expect(await isIn(first)).toBe(true);
  });
});

describe('being signed in', () => {
  it('ends with signing out, on this browser', async () => {
    const other = (await signIn()).cookie;
    const out = await door.post('/sign-out', {}, { headers: { cookie: first } });
    expect([out.status, out.location]).toEqual([303, '/sign-in']);
    expect(out.setCookie).toMatch(/^bastings=;.*(Max-Age=0|Expires=Thu, 01 Jan 1970)/);
    expect([await isIn(first), await isIn(other)]).toEqual([false, true]);
  });

  it('ends with signing out everywhere, on all of them', async () => {
    const others = [(await signIn()).cookie, (await signIn()).cookie];
    await door.post('/sign-out-everywhere', {}, { headers: { cookie: others[0]! } });
    expect(await Promise.all([first, ...others].map(isIn))).toEqual([false, false, false]);
  });

  it('ends after seven days unused, and after thirty however used', async () => {
    door.clock.forward(7 * DAY - 1);
    expect(await isIn(first)).toBe(true);
    door.clock.forward(7 * DAY + 1);
    expect(await isIn(first)).toBe(false);
    const used = (await signIn()).cookie;
    for (let day = 0; day < 30; day += 1) {
      expect(await isIn(used)).toBe(true);
      door.clock.forward(DAY);
    }
    door.clock.forward(1);
    expect(await isIn(used)).toBe(false);
  });

  it('is nobody’s by a made-up cookie', async () => {
    for (const cookie of ['bastings=', 'bastings=x', `bastings=${'A'.repeat(43)}`, 'bastings=%00', 'other=1'])
      expect([cookie, await isIn(cookie)]).toEqual([cookie, false]);
  });
});
