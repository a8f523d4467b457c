import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { backUp, restore } from '../../src/app/commands/keep-safe.js';
import { readConfig } from '../../src/app/config.js';
import { openKept } from '../../src/app/open-kept.js';
import { clientBook } from '../../src/storage/books/client-book.js';
import { UnitOfWork } from '../../src/storage/unit-of-work.js';
import { clientWords, odalys } from '../storage/kept-home.js';
import { StillClock } from '../support/still-clock.js';

let root: string;
const clock = new StillClock();
const config = () => readConfig({ DATA_DIR: join(root, 'studio') });
const file = () => join(root, 'studio', 'bastings.sqlite');

/** A studio with 300 clients, so that there are pages to damage. */
const begin = async (): Promise<void> => {
  const source = await openKept(config());
  await new UnitOfWork(source, clock).write(odalys(), async (writing) => {
    for (let place = 0; place < 300; place += 1)
      await clientBook.add(writing, clientWords(`Client ${place}`, { notes: 'x'.repeat(200) }));
  });
  await source.destroy();
};
const hashOf = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');
const all = (): Record<string, string> =>
  Object.fromEntries(
    readdirSync(join(root, 'studio'), { withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ name }) => [name, hashOf(readFileSync(join(root, 'studio', name)))])
      // Whoever reads a file in write-ahead mode makes an empty log and an index beside it.
      .filter(([name]) => !/-(wal|shm)$/.test(name!)),
  );

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'bastings-open-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const damages: readonly (readonly [string, (whole: Buffer) => Buffer])[] = [
  ['something else', () => Buffer.from('Dear Corvin, your jacket is ready.'.repeat(40))],
  ['cut off', (whole) => whole.subarray(0, Math.trunc(whole.length / 8192) * 4096)],
  [
    'scribbled over in the middle',
    (whole) => Buffer.concat([whole.subarray(0, 8192), Buffer.alloc(whole.length - 8192, 7)]),
  ],
  ['emptied', () => Buffer.alloc(0)],
];

describe.each(damages)('a file that is %s', (_, spoil) => {
  it('is not opened, says so in words with the backup to bring back, and is left as it is', async () => {
    await begin();
    await backUp(config(), clock);
    writeFileSync(file(), spoil(readFileSync(file())));
    const before = all();
    const opening = openKept(config());
    await expect(opening).rejects.toThrow(
      /is damaged, so the studio was not opened and nothing in it was changed\./,
    );
    await expect(opening).rejects.toThrow('npm run restore -- bastings-2026-03-02T09-00-00Z.sqlite');
    expect(all()).toEqual(before);
    await restore(config(), 'bastings-2026-03-02T09-00-00Z.sqlite', root, clock);
    const source = await openKept(config());
    expect(await clientBook.count(source)).toBe(300);
    await source.destroy();
  });
});

it('without a backup it says where one would lie', async () => {
  mkdirSync(join(root, 'studio'));
  writeFileSync(file(), 'spoilt '.repeat(200));
  await expect(openKept(config())).rejects.toThrow(
    `There is no backup in ${join(root, 'studio', 'backups')}.`,
  );
});

it('a new file, and an empty one that never was a studio, are opened', async () => {
  mkdirSync(join(root, 'studio'));
  writeFileSync(file(), '');
  await (await openKept(config())).destroy();
  await (await openKept(config())).destroy();
});

it('a folder that cannot be written to is said in words', async () => {
  // A file in the folder’s place, and a folder in the file’s: neither can be written even by an administrator.
  writeFileSync(join(root, 'studio'), '');
  await expect(openKept(config())).rejects.toThrow(
    'cannot be read and written, so the studio was not opened',
  );
  rmSync(join(root, 'studio'));
  mkdirSync(file(), { recursive: true });
  await expect(openKept(config())).rejects.toThrow(
    'cannot be read and written, so the studio was not opened',
  );
});

it('of a newer release is not opened, says so, and is as it was', async () => {
  await begin();
  const source = await openKept(config());
  await source.query("INSERT INTO migrations (timestamp, name) VALUES (2000000000000, 'Later2000000000000')");
  await source.destroy();
  const before = all();
  await expect(openKept(config())).rejects.toThrow('A newer release of the program has written to this');
  expect(all()).toEqual(before);
});
