import { afterAll, beforeAll, expect, it } from 'vitest';
import { newSecret, secretHash } from '../../../src/app/sign-in/secrets.js';
import { accountBook } from '../../../src/storage/books/account-book.js';
import { fuzz } from '../../bench/fuzz/fuzz.mjs';
import { routesUnder } from '../../bench/fuzz/routes.mjs';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

/* A small part of `npm run bench -- fuzz`, always the same: every operation of the OpenAPI document, every page and form. */

const [COUNT, SEED] = [700, 20_260_302];
const HANDS = {
  owner: 'Odalys Fenwright',
  maker: 'Wilmot Larkspur',
  trusted: 'Isaura Pennygrove',
  bookkeeper: 'Ottoline Marchbanks',
} as const;

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  const post = async (url: string, body: object): Promise<any> =>
    (await studio.api('POST', url, body)).json();
  await post('/api/house/people', { name: HANDS.maker, role: 'maker', seesPrices: false });
  await post('/api/house/people', { name: HANDS.trusted, role: 'maker', seesPrices: true });
  await post('/api/house/people', { name: HANDS.bookkeeper, role: 'bookkeeper', seesPrices: false });
  const client = await post('/api/clients', { name: 'Corvin Haddlestone' });
  await post('/api/commissions', {
    client: { id: client.id },
    title: 'Winter suit',
    garments: [{ typeId: 'lounge-jacket', name: 'Jacket', make: 'all-hand' }],
  });
});
afterAll(() => studio.close());

/** A session of its own, whatever became of the name and the passphrase meanwhile. */
const signedIn = async (accountId: string): Promise<Record<string, string>> => {
  const secret = newSecret();
  const at = studio.clock.now();
  await studio.unit.aside((manager) => accountBook.begin({ manager }, secretHash(secret), accountId, at));
  return { cookie: `bastings=${secret}` };
};

const token = async (accountId: string): Promise<Record<string, string>> => {
  const secret = newSecret();
  await studio.unit.write(studio.visit, async (writing) => {
    await accountBook.addToken(writing, { accountId, name: 'fuzz', secretHash: secretHash(secret) });
    writing.says('Made an API token for the fuzz', 'house');
  });
  return { authorization: `Bearer ${secret}` };
};

it('answers whatever is sent: no fault of its own, nothing of its inside, and in time', async () => {
  const ids = new Map<string, string>();
  for (const [who, name] of Object.entries(HANDS))
    ids.set(who, (await accountBook.named(studio.read, name))?.id ?? expect.fail(`${name} is not here.`));
  const owner = ids.get('owner')!;
  const renew = (who: string) => (who === 'token' ? token(owner) : signedIn(ids.get(who) ?? owner));
  const keys: Record<string, Record<string, string>> = {};
  for (const who of [...ids.keys(), 'token']) keys[who] = await renew(who);
  const address = await studio.listen();
  const routes = routesUnder(
    '/',
    studio.app.getHttpAdapter().getInstance().printRoutes({ commonPrefix: false, includeMeta: false }),
  );
  const pages = routes.filter((route) => /^get \/(?!api)/.test(route)).map((route) => route.slice(4));
  const document = (await studio.api('GET', '/api/openapi.json')).json();
  const found = await fuzz({ address, document, pages, keys, renew, count: COUNT, seed: SEED });
  expect(found.faults.slice(0, 10)).toEqual([]);
  expect(found.asked).toBeGreaterThan(COUNT);
}, 120_000);
