import { randomUUID } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { readConfig } from '../../src/app/config.js';
import { createApp } from '../../src/app/create-app.js';
import { Door } from '../../src/app/sign-in/door.js';
import { secretHash } from '../../src/app/sign-in/secrets.js';
import { newStudio } from '../../src/domain/house/new-studio.js';
import { accountBook } from '../../src/storage/books/account-book.js';
import { makingBook } from '../../src/storage/books/making-book.js';
import { studioBook } from '../../src/storage/books/studio-book.js';
import { ReadSide } from '../../src/storage/read-side.js';
import type { Visit } from '../../src/storage/session.js';
import { readStarter } from '../../src/storage/starter/read-starter.js';
import { UnitOfWork } from '../../src/storage/unit-of-work.js';
import { StillClock } from './still-clock.js';

export const OWNER = { name: 'Odalys Fenwright', passphrase: 'thimble wax needle chalk' };

type Answer = { status: number; headers: Record<string, unknown>; text: string; json: () => any };

/** A whole studio on a temporary file, asked over HTTP (without a socket unless `listen` is called). */
export type TestStudio = {
  app: NestFastifyApplication;
  clock: StillClock;
  unit: UnitOfWork;
  read: ReadSide;
  visit: Visit;
  cookie: string;
  token: string;
  get(url: string, headers?: Record<string, string>): Promise<Answer>;
  post(url: string, fields: Record<string, string>, headers?: Record<string, string>): Promise<Answer>;
  api(method: string, url: string, body?: unknown, headers?: Record<string, string>): Promise<Answer>;
  /** Opens a socket; answers the address. */
  listen(): Promise<string>;
  close(): Promise<void>;
  /** Closes it and hands over its folder of data before that is taken away. */
  closeInto(take: (folder: string) => void): Promise<void>;
};

/**
 * A studio as after its first run: identity, starting types and operations, no rates yet.
 *
 * @param environment e.g. DATABASE_URL, to run the same studio on PostgreSQL
 */
export const openTestStudio = (environment: Record<string, string> = {}): Promise<TestStudio> =>
  open(environment, 'after its first run', openAndBring);

/** An owner who is signed in, and nothing else yet. */
export const openEmptyStudio = (environment: Record<string, string> = {}): Promise<TestStudio> =>
  open(environment, 'owned', own);

type Owned = { ownerId: string; token: string; cookie: string };
type Begins = (app: NestFastifyApplication) => Promise<Owned>;

const own: Begins = async (app) => {
  const [door, unit] = [app.get(Door), app.get(UnitOfWork)];
  const ownerId = await door.addOwner(OWNER.name, OWNER.passphrase);
  const token = `test-token-${randomUUID()}`;
  await unit.write({ who: { id: ownerId, name: OWNER.name } }, async (writing) => {
    await accountBook.addToken(writing, { accountId: ownerId, name: 'tests', secretHash: secretHash(token) });
    writing.says('Made an API token for tests', 'house');
  });
  const cookie = `bastings=${await door.signIn(OWNER.name, OWNER.passphrase, '127.0.0.1')}`;
  return { ownerId, token, cookie };
};

const openAndBring: Begins = async (app) => {
  const owned = await own(app);
  const starter = await readStarter(join(import.meta.dirname, '../../data/starter'));
  await app.get(UnitOfWork).write({ who: { id: owned.ownerId, name: OWNER.name } }, async (writing) => {
    const zone = 'Europe/Dublin';
    await studioBook.open(writing, newStudio({ name: 'Quillmere Workroom', maker: OWNER.name, zone }));
    await makingBook.bring(writing, starter);
    writing.says('Opened the studio', 'house');
  });
  return owned;
};

const newFolder = (): string => mkdtempSync(join(tmpdir(), 'bastings-'));

const appIn = async (folder: string, environment: Record<string, string>, clock: StillClock) => {
  const place = { DATA_DIR: folder, PORT: '0', LOG_LEVEL: 'error', TIME_ZONE: 'Europe/Dublin' };
  const app = await createApp(readConfig({ ...place, ...environment }), clock);
  await app.init();
  await app.getHttpAdapter().getInstance().ready();
  return app;
};

const FILE = 'bastings.sqlite';
const begun = new Map<string, Promise<Owned & { file: Buffer }>>();

/** Before the tests' own time begins, so that what they do comes after it in the history. */
const BEFORE = Date.parse('2026-03-02T08:59:00.000Z');

/** The file of a studio that has just begun. Each worker of the tests makes it once. */
const fileThatBegins = async (begins: Begins): Promise<Owned & { file: Buffer }> => {
  const folder = newFolder();
  const app = await appIn(folder, {}, new StillClock(BEFORE));
  const owned = await begins(app);
  await app.close();
  const file = readFileSync(join(folder, FILE));
  rmSync(folder, { recursive: true, force: true });
  return { ...owned, file };
};

const open = async (
  environment: Record<string, string>,
  name: string,
  begins: Begins,
): Promise<TestStudio> => {
  const [folder, clock] = [newFolder(), new StillClock()];
  if (environment.DATABASE_URL) {
    const app = await appIn(folder, environment, clock);
    return studioOf(app, await begins(app), folder, clock);
  }
  const beginning = begun.get(name) ?? fileThatBegins(begins);
  begun.set(name, beginning);
  const { file, ...owned } = await beginning;
  writeFileSync(join(environment.DATA_DIR ?? folder, FILE), file, { mode: 0o600 });
  return studioOf(await appIn(folder, environment, clock), owned, folder, clock);
};

const studioOf = (
  app: NestFastifyApplication,
  { ownerId, token, cookie }: Owned,
  folder: string,
  clock: StillClock,
): TestStudio => {
  const [unit, read] = [app.get(UnitOfWork), app.get(ReadSide)];
  const visit: Visit = { who: { id: ownerId, name: OWNER.name } };

  const ask = async (
    method: string,
    url: string,
    headers: Record<string, string>,
    payload?: string,
  ): Promise<Answer> => {
    const answer = await app.inject({
      method: method as 'GET',
      url,
      headers,
      ...(payload === undefined ? {} : { payload }),
    });
    return {
      status: answer.statusCode,
      headers: answer.headers,
      text: answer.payload,
      json: () => JSON.parse(answer.payload),
    };
  };
  const form = {
    'content-type': 'application/x-www-form-urlencoded',
    'sec-fetch-site': 'same-origin',
    cookie,
  };
  return {
    app,
    clock,
    unit,
    read,
    visit,
    cookie,
    token,
    get: (url, headers = {}) => ask('GET', url, { cookie, ...headers }),
    post: (url, fields, headers = {}) =>
      ask('POST', url, { ...form, ...headers }, new URLSearchParams(fields).toString()),
    api: (method, url, body, headers = {}) => {
      const json: Record<string, string> = body === undefined ? {} : { 'content-type': 'application/json' };
      const payload = body === undefined ? undefined : JSON.stringify(body);
      return ask(method, url, { authorization: `Bearer ${token}`, ...json, ...headers }, payload);
    },
    listen: async () => {
      await app.listen(0, '127.0.0.1');
      const at = app.getHttpServer().address();
      return `http://127.0.0.1:${typeof at === 'object' && at ? at.port : 0}`;
    },
    close: async () => {
      await app.close();
      rmSync(folder, { recursive: true, force: true });
    },
    closeInto: async (take) => {
      await app.close();
      take(folder);
      rmSync(folder, { recursive: true, force: true });
    },
  };
};
