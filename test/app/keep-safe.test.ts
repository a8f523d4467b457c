import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { backUp, restore } from '../../src/app/commands/keep-safe.js';
import { configWords, readConfig } from '../../src/app/config.js';
import { Backups } from '../../src/storage/backup/backups.js';
import { clientBook } from '../../src/storage/books/client-book.js';
import { openForWriting } from '../../src/storage/connection/data-source.js';
import { UnitOfWork } from '../../src/storage/unit-of-work.js';
import { sizeInWords } from '../../src/web/words/sizes.js';
import { clientWords, odalys } from '../storage/kept-home.js';
import { StillClock } from '../support/still-clock.js';

let folder: string;
const clock = new StillClock();
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'bastings-safe-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const config = () => readConfig({ DATA_DIR: folder });
const add = async (name: string): Promise<void> => {
  const source = await openForWriting(config().home);
  await new UnitOfWork(source, clock).write(odalys(), (writing) =>
    clientBook.add(writing, clientWords(name)),
  );
  await source.destroy();
};
const count = async (): Promise<number> => {
  const source = await openForWriting(config().home);
  const many = await clientBook.count(source);
  await source.destroy();
  return many;
};

it('`npm run backup` and `npm run restore` say what they did, and take a backup by its name alone', async () => {
  await add('Corvin Haddlestone');
  const [where = '', checked = ''] = await backUp(config(), clock);
  expect(where).toBe(`backup: ${join(folder, 'backups', 'bastings-2026-03-02T09-00-00Z.sqlite')}`);
  expect(checked).toMatch(/^checked: [\d.]+ [kM]B, \d+ rows in it$/);
  await add('Added later');
  const said = await restore(config(), 'bastings-2026-03-02T09-00-00Z.sqlite', folder, clock);
  expect(said[0]).toContain(`from ${join(folder, 'backups')}`);
  expect(said[1]).toContain('bastings-replaced-2026-03-02T09-00-00Z.sqlite');
  expect(await count()).toBe(1);
  expect(readdirSync(folder).toSorted()).toEqual([
    'backups',
    'bastings-replaced-2026-03-02T09-00-00Z.sqlite',
    'bastings.sqlite',
  ]);
});

it('a sealed backup is restored with the passphrase that is asked for, and no line repeats it', async () => {
  await add('Corvin Haddlestone');
  const passphrase = 'beeswax thimble basting thread';
  const sealing = readConfig({ DATA_DIR: folder, BACKUP_DIR: 'else', BACKUP_PASSPHRASE: passphrase }, folder);
  // As backUp does it, with less work for the key, which would take seconds here.
  const { name } = await new Backups(sealing.home, sealing.backupDir, clock, {
    passphrase,
    folder,
    work: 10,
  }).make();
  expect(name).toBe('bastings-2026-03-02T09-00-00Z.sqlite.age');
  await add('Added later');
  const asking = readConfig({ DATA_DIR: folder, BACKUP_DIR: 'else' }, folder);
  const wrong = restore(asking, name, folder, clock, async () => 'another one');
  await expect(wrong).rejects.toThrow('not the passphrase');
  expect(await count()).toBe(2);
  const back = await restore(asking, name, folder, clock, async () => passphrase);
  expect(await count()).toBe(1);
  expect([...back, ...configWords(sealing)].join()).not.toContain('beeswax');
  expect(configWords(sealing).join()).toContain('sealed with the passphrase');
});

it('they refuse, in a sentence, what cannot be done', async () => {
  await expect(backUp(config(), clock)).rejects.toThrow('nothing to back up yet');
  await expect(restore(config(), 'nothing.sqlite', folder, clock)).rejects.toThrow('There is no file');
});

it.each([
  [0, '0 bytes'],
  [1, '1 byte'],
  [999, '999 bytes'],
  [1000, '1 kB'],
  [1_234_567, '1.2 MB'],
  [5_000_000_000, '5 GB'],
])('a size of %i is %s', (bytes, words) => {
  expect(sizeInWords(bytes)).toBe(words);
});
