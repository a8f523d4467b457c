// The demonstration studio with its quotes and its story, as `npm run demo` loads it; with "ten-years" or "twenty-years" all that a workroom writes meanwhile around them.
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
import { secretHash } from '../../../dist/app/sign-in/secrets.js';
import { accountBook } from '../../../dist/storage/books/account-book.js';
import { benchBook } from '../../../dist/storage/books/bench/bench-book.js';
import { openGarments } from '../../../dist/storage/books/bench/open-garments.js';
import { personBook } from '../../../dist/storage/books/bench/person-book.js';
import { clientBook } from '../../../dist/storage/books/client-book.js';
import { makingBook } from '../../../dist/storage/books/making-book.js';
import { planBook } from '../../../dist/storage/books/plan-book.js';
import { MachineClock, todayIn } from '../../../dist/storage/clock.js';
import { lessonBook } from '../../../dist/storage/lesson/lesson-book.js';
import { ReadSide } from '../../../dist/storage/read-side.js';
import { UnitOfWork } from '../../../dist/storage/unit-of-work.js';
import { answerQuestions, memoryOf } from '../child.mjs';
import { fillYears, SIZES } from './ten-years.mjs';

const OWNER = { name: 'Odalys Fenwright', passphrase: 'thimble wax needle chalk' };
const TOKEN = 'a-token-for-the-bench';

const folder = mkdtempSync(join(tmpdir(), 'bastings-years-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
const config = readConfig({ DATA_DIR: folder, PORT: '0', LOG_LEVEL: 'error', TIME_ZONE: 'Europe/Dublin' });
const clock = new StoryClock(new MachineClock());
const app = await createApp(config, clock);
const serverTimes = {};
app
  .getHttpAdapter()
  .getInstance()
  .addHook('onResponse', async (request, reply) => {
    const url = `${request.method} ${request.url}`;
    serverTimes[url] ??= [];
    serverTimes[url].push(reply.elapsedTime);
  });
await app.listen(0, '127.0.0.1');

const [door, unit, read] = [app.get(Door), app.get(UnitOfWork), app.get(ReadSide)];
const ownerId = await door.addOwner(OWNER.name, OWNER.passphrase);
const visit = { who: { id: ownerId, name: OWNER.name } };
const today = todayIn(clock, config.zone);
const loaded = await loadDemo(unit, visit, clock, config.zone);
const noQuotes = await loadQuotes(app, visit, config.zone, loaded);
if (noQuotes) throw new Error(`The demonstration's quotes are not issued: ${noQuotes}`);
await unit.write(visit, async (writing) => {
  await accountBook.addToken(writing, { accountId: ownerId, name: 'bench', secretHash: secretHash(TOKEN) });
  writing.says('Made an API token for the bench', 'house');
});
const broken = await loadStory(app, {
  clock,
  token: TOKEN,
  today,
  zone: config.zone,
  names: new Map([...loaded.clients, ...loaded.commissions]),
  folder: demoFolder('demo/story'),
});
if (broken) throw new Error(`The demonstration's story ends early: ${broken}`);

const worked = await openGarments(read);
const { value: person } = await unit.write(visit, async (writing) => {
  const own = await personBook.mine(writing);
  for (const garment of worked.slice(0, 8)) {
    const plan = (await planBook.of(writing, garment.id)).slice(0, 6);
    for (const { id, kind, name, mode } of plan)
      await benchBook.add(writing, {
        commissionId: garment.commissionId,
        garmentId: garment.id,
        garmentName: garment.name,
        operationId: id,
        kind,
        name,
        stage: undefined,
        mode,
        away: undefined,
        personId: own.id,
        personName: own.name,
        minutes: 40,
        on: today,
        begunAt: undefined,
        endedAt: undefined,
        cause: undefined,
        extraId: undefined,
        way: 'line',
        note: '',
      });
  }
  writing.says('Worked for the bench', 'house');
  return own;
});

let filled = {};
let filledIn = 0;
const size = SIZES[process.argv[2]];
if (size) {
  const from = performance.now();
  filled = await fillYears(
    app.get('connection that writes'),
    {
      today,
      person,
      clients: (await clientBook.find(read, '', 100)).items.map(({ id }) => id),
      types: (await makingBook.types(read)).filter(({ isMenu }) => !isMenu).map(({ id }) => id),
    },
    size,
  );
  filledIn = performance.now() - from;
}
const lessonFrom = performance.now();
const lesson = await lessonBook.upToDate(read);
const lessonIn = performance.now() - lessonFrom;

/** The queries of one page, told by the connection that reads, with the way SQLite goes about each. */
const plansOf = async (path) => {
  const source = app.get('connection that reads');
  const asked = new Map();
  const silent = source.logger;
  source.logger = {
    ...silent,
    logQuery: (sql, params) => asked.set(sql, params ?? []),
    logQueryError() {},
    logQuerySlow() {},
    log() {},
  };
  await fetch(`${addressOf(app, config)}${path}`, { headers: { cookie } });
  source.logger = silent;
  const found = [];
  for (const [sql, params] of asked) {
    if (!/^\s*SELECT/i.test(sql)) continue;
    const steps = await source.query(`EXPLAIN QUERY PLAN ${sql}`, params);
    found.push({ sql: sql.replaceAll(/"/g, '').slice(0, 400), steps: steps.map(({ detail }) => detail) });
  }
  return found;
};

const cookie = `bastings=${await door.signIn(OWNER.name, OWNER.passphrase, '127.0.0.1')}`;
const garment = worked[0];
answerQuestions({
  memory: () => memoryOf(false),
  'memory, tidied': () => memoryOf(true),
  'server times': () => serverTimes,
  'forget times': () => {
    for (const url of Object.keys(serverTimes)) delete serverTimes[url];
    return 'forgotten';
  },
  plans: async () => {
    const pages = [
      '/',
      '/clients',
      '/commissions',
      '/bench',
      `/commissions/${garment.commissionId}/garments/${garment.id}`,
    ];
    const all = {};
    for (const path of pages) {
      // Something is written before each, so that nothing is answered from memory.
      await unit.write(visit, async (writing) => {
        const one = await personBook.one(writing, person.id);
        await personBook.correct(writing, one.id, { ...one, left: false });
        writing.says('Looked at a person', 'house');
        writing.forGood();
      });
      all[path.replaceAll(/[0-9a-f-]{36}/g, '…')] = await plansOf(path);
    }
    return all;
  },
});
process.send({
  address: addressOf(app, config),
  cookie,
  token: TOKEN,
  filled,
  filledIn,
  lesson: { garments: lesson.garments, rows: lesson.rows, took: lessonIn },
  garment: garment.id,
  commission: garment.commissionId,
  operation: (await planBook.of(read, garment.id))[0].id,
});
