// The demonstration studio with four people who may do different things, opened for strangers' requests.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readConfig } from '../../../dist/app/config.js';
import { createApp } from '../../../dist/app/create-app.js';
import { folder as demoFolder, loadDemo } from '../../../dist/app/demo/load-demo.js';
import { loadQuotes } from '../../../dist/app/demo/load-quotes.js';
import { loadStory } from '../../../dist/app/demo/load-story.js';
import { StoryClock } from '../../../dist/app/demo/story-clock.js';
import { addressOf } from '../../../dist/app/open-studio.js';
import { Door } from '../../../dist/app/sign-in/door.js';
import { newSecret, secretHash } from '../../../dist/app/sign-in/secrets.js';
import { accountBook } from '../../../dist/storage/books/account-book.js';
import { personBook } from '../../../dist/storage/books/bench/person-book.js';
import { MachineClock, todayIn } from '../../../dist/storage/clock.js';
import { UnitOfWork } from '../../../dist/storage/unit-of-work.js';
import { answerQuestions } from '../child.mjs';
import { fuzz } from './fuzz.mjs';
import { routesUnder } from './routes.mjs';

const [COUNT, SEED] = process.argv.slice(2).map(Number);
const OWNER = { name: 'Odalys Fenwright', passphrase: 'thimble wax needle chalk' };
const HANDS = [
  ['maker', { name: 'Bertrand Ashgrove', role: 'maker', seesPrices: false }],
  ['trusted', { name: 'Isaura Pennygrove', role: 'maker', seesPrices: true }],
  ['bookkeeper', { name: 'Ottoline Marchbanks', role: 'bookkeeper', seesPrices: false }],
];

const folder = mkdtempSync(join(tmpdir(), 'bastings-fuzz-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
const config = readConfig({ DATA_DIR: folder, PORT: '0', LOG_LEVEL: 'error', TIME_ZONE: 'Europe/Dublin' });
const clock = new StoryClock(new MachineClock());
const app = await createApp(config, clock);
await app.listen(0, '127.0.0.1');
const [door, unit] = [app.get(Door), app.get(UnitOfWork)];
const ownerId = await door.addOwner(OWNER.name, OWNER.passphrase);
const visit = { who: { id: ownerId, name: OWNER.name } };

const tokenOf = async (accountId) => {
  const secret = newSecret();
  await unit.write(visit, async (writing) => {
    await accountBook.addToken(writing, { accountId, name: 'fuzz', secretHash: secretHash(secret) });
    writing.says('Made an API token for the fuzz', 'house');
  });
  return secret;
};

const today = todayIn(clock, config.zone);
const loaded = await loadDemo(unit, visit, clock, config.zone);
const unissued = await loadQuotes(app, visit, config.zone, loaded);
if (unissued) throw new Error(`The demonstration's quotes are not issued: ${unissued}`);
const token = await tokenOf(ownerId);
const names = new Map([...loaded.clients, ...loaded.commissions]);
const told = { clock, token, today, zone: config.zone, names, folder: demoFolder('demo/story') };
const broken = await loadStory(app, told);
if (broken) throw new Error(`The demonstration's story ends early: ${broken}`);

const ids = { owner: ownerId };
await unit.write(visit, async (writing) => {
  await personBook.mine(writing);
  for (const [who, person] of HANDS) {
    const accountId = writing.newId();
    await accountBook.open(writing, { id: accountId, ...person, passphraseHash: 'none' });
    await personBook.add(writing, { ...person, accountId, left: false });
    ids[who] = accountId;
  }
  writing.says('Added people for the fuzz', 'house');
});

/** A session or a token of their own, whatever was done to the last one. */
const renew = async (who) => {
  if (who === 'token') return { authorization: `Bearer ${await tokenOf(ownerId)}` };
  const secret = newSecret();
  await unit.aside((manager) => accountBook.begin({ manager }, secretHash(secret), ids[who], clock.now()));
  return { cookie: `bastings=${secret}` };
};

const address = addressOf(app, config);
const keys = { token: { authorization: `Bearer ${token}` } };
for (const who of Object.keys(ids)) keys[who] = await renew(who);
const tree = app.getHttpAdapter().getInstance().printRoutes({ commonPrefix: false, includeMeta: false });
const pages = routesUnder('/', tree)
  .filter((route) => /^get \/(?!api)/.test(route))
  .map((route) => route.slice(4));
const document = await (await fetch(`${address}/api/openapi.json`, { headers: keys.token })).json();

answerQuestions({
  fuzz: () => fuzz({ address, document, pages, keys, renew, count: COUNT, seed: SEED }),
});
process.send('ready');
