import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { accountBook } from '../../storage/books/account-book.js';
import { MachineClock, todayIn } from '../../storage/clock.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import type { Config } from '../config.js';
import { createApp } from '../create-app.js';
import { addressOf } from '../open-studio.js';
import { Door } from '../sign-in/door.js';
import { newSecret, secretHash } from '../sign-in/secrets.js';
import { folder, loadDemo } from './load-demo.js';
import { loadQuotes } from './load-quotes.js';
import { loadStory } from './load-story.js';
import { StoryClock } from './story-clock.js';

const OWNER = 'Odalys Fenwright';

/** How to come in, kept beside the demonstration's data so that it can be said again at the next start. */
type Keys = { readonly passphrase: string; readonly token: string };

/** Serves the demonstration studio, loading it first where it is not there yet. */
export const openDemo = async (config: Config): Promise<void> => {
  if (config.fresh) await rm(config.dataDir, { recursive: true, force: true });
  const keysFile = join(config.dataDir, 'keys.json');
  const known = existsSync(keysFile);
  // A load that was broken off has no keys yet: it is begun again from nothing.
  if (!known) await rm(config.dataDir, { recursive: true, force: true });
  const clock = new StoryClock(new MachineClock());
  const app = await createApp(config, clock);
  const [unit, door] = [app.get(UnitOfWork), app.get(Door)];
  let keys: Keys;
  if (known) {
    keys = JSON.parse(await readFile(keysFile, 'utf8')) as Keys;
  } else {
    console.log('loading the demonstration studio …');
    keys = { passphrase: `quillmere-${randomBytes(5).toString('hex')}`, token: newSecret() };
    const id = await door.addOwner(OWNER, keys.passphrase);
    const visit = { who: { id, name: OWNER } };
    const loaded = await loadDemo(unit, visit, clock, config.zone);
    const trouble = await loadQuotes(app, visit, config.zone, loaded);
    if (trouble) console.log(`The demonstration's quotes stay drafts: ${trouble}`);
    await unit.write(visit, async (writing) => {
      await accountBook.addToken(writing, {
        accountId: id,
        name: 'demonstration',
        secretHash: secretHash(keys.token),
      });
      writing.says('Made an API token for the demonstration', 'house');
    });
    await app.init();
    await app.getHttpAdapter().getInstance().ready();
    const broken = await loadStory(app, {
      clock,
      token: keys.token,
      today: todayIn(clock, config.zone),
      zone: config.zone,
      names: new Map([...loaded.clients, ...loaded.commissions]),
      folder: folder('demo/story'),
    });
    if (broken) console.log(`The demonstration's story ends early: ${broken}`);
    await mkdir(config.dataDir, { recursive: true });
    await writeFile(keysFile, JSON.stringify(keys), { mode: 0o600 });
  }
  await app.listen(config.port, config.host);
  console.log(`address: ${addressOf(app, config)}`);
  console.log(`sign in: ${OWNER} / ${keys.passphrase}`);
  console.log(`API token: ${keys.token}`);
};
