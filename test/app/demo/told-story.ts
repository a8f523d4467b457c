import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { expect } from 'vitest';
import { readConfig } from '../../../src/app/config.js';
import { createApp } from '../../../src/app/create-app.js';
import { folder, loadDemo } from '../../../src/app/demo/load-demo.js';
import { loadQuotes } from '../../../src/app/demo/load-quotes.js';
import { loadStory } from '../../../src/app/demo/load-story.js';
import { StoryClock } from '../../../src/app/demo/story-clock.js';
import { Door } from '../../../src/app/sign-in/door.js';
import { secretHash } from '../../../src/app/sign-in/secrets.js';
import { accountBook } from '../../../src/storage/books/account-book.js';
import { UnitOfWork } from '../../../src/storage/unit-of-work.js';
import { StillClock } from '../../support/still-clock.js';

export const ZONE = 'Europe/Dublin';
export const TODAY = '2026-03-02';
/** The bearer of this token is the owner. */
export const BEARER = { authorization: 'Bearer story' };
const [OWNER, PASSPHRASE] = ['Odalys Fenwright', 'thimble wax chalk'];

export type ToldStory = {
  readonly app: NestFastifyApplication;
  /** The owner's, signed in. */
  readonly cookie: string;
  /** What the demonstration and its story keep by a name, by that name. */
  readonly names: Map<string, string>;
  close(): Promise<void>;
};

/**
 * The whole demonstration with its story, as `npm run demo` loads it.
 *
 * @param before done when the studio stands and its story is not told yet
 */
export const tellStory = async (
  before: (so: Omit<ToldStory, 'cookie' | 'close'>) => Promise<void> = async () => undefined,
): Promise<ToldStory> => {
  const data = mkdtempSync(join(tmpdir(), 'bastings-story-'));
  const clock = new StoryClock(new StillClock());
  const app = await createApp(
    readConfig({ DATA_DIR: data, PORT: '0', LOG_LEVEL: 'error', TIME_ZONE: ZONE }),
    clock,
  );
  const [unit, door] = [app.get(UnitOfWork), app.get(Door)];
  const accountId = await door.addOwner(OWNER, PASSPHRASE);
  const visit = { who: { id: accountId, name: OWNER } };
  const loaded = await loadDemo(unit, visit, clock, ZONE);
  expect(await loadQuotes(app, visit, ZONE, loaded)).toBeUndefined();
  await unit.write(visit, async (writing) => {
    await accountBook.addToken(writing, { accountId, name: 'story', secretHash: secretHash('story') });
    writing.says('Made an API token', 'house');
  });
  await app.init();
  await app.getHttpAdapter().getInstance().ready();
  const names = new Map([...loaded.clients, ...loaded.commissions]);
  await before({ app, names });
  const told = { clock, token: 'story', today: TODAY, zone: ZONE, names, folder: folder('demo/story') };
  expect(await loadStory(app, told)).toBeUndefined();
  const cookie = `bastings=${await door.signIn(OWNER, PASSPHRASE, '127.0.0.1')}`;
  return {
    app,
    cookie,
    names,
    close: async () => {
      await app.close();
      rmSync(data, { recursive: true, force: true });
    },
  };
};
