// A whole studio on a temporary file, as `npm start` serves it: twenty clients, rates, and a garment of 35 operations.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Controller, Get, Module } from '@nestjs/common';
import { readConfig } from '../../dist/app/config.js';
import { createApp } from '../../dist/app/create-app.js';
import { loadHouse } from '../../dist/app/demo/load-house.js';
import { addressOf } from '../../dist/app/open-studio.js';
import { Door } from '../../dist/app/sign-in/door.js';
import { secretHash } from '../../dist/app/sign-in/secrets.js';
import { Decimal } from '../../dist/domain/kernel/decimal.js';
import { addOperation } from '../../dist/domain/making/making-plan.js';
import { PdfPrinter } from '../../dist/printing/browser/pdf-printer.js';
import { clientListPage } from '../../dist/rooms/clients/client.page.js';
import { openCommission } from '../../dist/rooms/commissions/open-commission.js';
import { rooms } from '../../dist/rooms/rooms.js';
import { accountBook } from '../../dist/storage/books/account-book.js';
import { clientBook } from '../../dist/storage/books/client-book.js';
import { garmentBook } from '../../dist/storage/books/garment-book.js';
import { pastGarmentBook } from '../../dist/storage/books/past-garment-book.js';
import { planBook } from '../../dist/storage/books/plan-book.js';
import { ReadSide } from '../../dist/storage/read-side.js';
import { readStarter } from '../../dist/storage/starter/read-starter.js';
import { UnitOfWork } from '../../dist/storage/unit-of-work.js';
import { Surroundings } from '../../dist/web/manners/surroundings.js';
import { answer } from '../../dist/web/reply.js';
import { answerQuestions, processorTime } from './child.mjs';

const OPERATIONS = 35;
const OWNER = { name: 'Odalys Fenwright', passphrase: 'thimble wax needle chalk' };
const TOKEN = 'a-token-for-the-bench';

/** A route of the same server that answers nothing: what every request costs before there is anything to work out. */
class EmptyApi {
  nothing() {
    return answer({});
  }
}
const described = Object.getOwnPropertyDescriptor(EmptyApi.prototype, 'nothing');
Get()(EmptyApi.prototype, 'nothing', described);
Controller('api/nothing')(EmptyApi);
class EmptyModule {}
Module({ controllers: [EmptyApi] })(EmptyModule);
rooms.push(EmptyModule);

const folder = mkdtempSync(join(tmpdir(), 'bastings-bench-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
const config = readConfig({ DATA_DIR: folder, PORT: '0', LOG_LEVEL: 'error', TIME_ZONE: 'Europe/Dublin' });
const app = await createApp(config);
const serverTimes = {};
app
  .getHttpAdapter()
  .getInstance()
  .addHook('onResponse', async (request, reply) => {
    serverTimes[request.url] ??= [];
    serverTimes[request.url].push(reply.elapsedTime);
  });
await app.listen(0, '127.0.0.1');

const [door, unit, read] = [app.get(Door), app.get(UnitOfWork), app.get(ReadSide)];
const ownerId = await door.addOwner(OWNER.name, OWNER.passphrase);
const visit = { who: { id: ownerId, name: OWNER.name } };
const today = '2026-03-02';

await unit.write(visit, async (writing) => {
  const starter = await readStarter(new URL('../../data/starter', import.meta.url).pathname);
  await loadHouse(writing, { maker: OWNER.name, zone: config.zone, from: '2024-01-01', starter });
  await accountBook.addToken(writing, { accountId: ownerId, name: 'bench', secretHash: secretHash(TOKEN) });
  for (let n = 1; n <= 20; n += 1) {
    await clientBook.add(writing, {
      name: `Corvin Haddlestone the ${n}th`,
      address: `The Apiary ${n}\nLong Reach Lane`,
      country: '',
      email: `corvin${n}@haddlestone.example`,
      phone: `555 01${String(n).padStart(2, '0')}`,
      taxNumber: '',
      notes: '',
      isChild: false,
      birthDate: undefined,
      guardian: '',
    });
  }
  for (let n = 0; n < 20; n += 1) {
    const hours = { hours: new Decimal(50 + n), plannedHours: new Decimal(55) };
    await pastGarmentBook.add(writing, {
      typeId: 'lounge-jacket',
      ...hours,
      finishedOn: undefined,
      note: '',
    });
  }
  writing.says('Filled the studio for the bench', 'house');
});
const client = (await clientBook.find(read, '')).items[0];
const { value: commission } = await openCommission(
  unit,
  visit,
  {
    client: { id: client.id },
    payer: undefined,
    title: 'A jacket for the bench',
    orderNumber: '',
    wantedBy: undefined,
    notes: '',
    garments: [
      {
        typeId: 'lounge-jacket',
        name: 'Jacket',
        make: 'all-hand',
        wearer: undefined,
        dueOn: undefined,
        notes: '',
      },
    ],
  },
  today,
);
const garment = (await garmentBook.ofCommission(read, commission.id))[0];
await unit.write(visit, async (writing) => {
  let plan = (await planBook.of(writing, garment.id)).slice(0, OPERATIONS);
  while (plan.length < OPERATIONS) {
    const like = plan[plan.length % 7];
    plan = addOperation(plan, {
      ...like,
      id: writing.newId(),
      name: `${like.name}, once more ${plan.length}`,
    });
  }
  await planBook.keep(writing, garment.id, plan);
  writing.says('Planned the jacket of the bench', `commission/${commission.id}`);
});
if ((await planBook.of(read, garment.id)).length !== OPERATIONS)
  throw new Error('The plan has another length.');

const list = clientListPage(await clientBook.find(read, '', 20, ''), '', '');
const words = await app.get(Surroundings).around({ query: {}, url: '/clients', visit, nonce: '' }, list);
const secret = await door.signIn(OWNER.name, OWNER.passphrase, '127.0.0.1');

answerQuestions({
  processor: processorTime,
  'server times': () => serverTimes,
  'forget times': () => {
    for (const url of Object.keys(serverTimes)) delete serverTimes[url];
    return 'forgotten';
  },
  'is a browser running': () => app.get(PdfPrinter).isWarm,
});
process.send({
  address: addressOf(app, config),
  cookie: `bastings=${secret}`,
  token: TOKEN,
  garment: garment.id,
  words,
});
