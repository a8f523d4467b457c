import { randomBytes } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Backups } from '../../../src/storage/backup/backups.js';
import { restoreBackup } from '../../../src/storage/backup/restore.js';
import { isSealed } from '../../../src/storage/backup/sealed/age-file.js';
import { openSealed, sealFile } from '../../../src/storage/backup/sealed/seal-aside.js';
import { clientBook } from '../../../src/storage/books/client-book.js';
import { openForReading, openForWriting } from '../../../src/storage/connection/data-source.js';
import { UnitOfWork } from '../../../src/storage/unit-of-work.js';
import { StillClock } from '../../support/still-clock.js';
import { clientWords, freshHome, kinds, odalys } from '../kept-home.js';
import { openByTheBook } from './age-by-the-book.js';

const PASSPHRASE = 'beeswax thimble basting thread';
/** Quick enough for a test; the program itself takes 18. */
const work = 10;
let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'bastings-sealed-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));
const at = (name: string): string => join(root, name);

describe('a sealed file', () => {
  it.each([0, 1, 65_535, 65_536, 65_537, 200_000])(
    'of %i bytes opens by the words of the format',
    async (size) => {
      const inside = randomBytes(size);
      writeFileSync(at('open'), inside);
      await sealFile(at('open'), at('sealed'), PASSPHRASE, work);
      expect(await isSealed(at('sealed'))).toBe(true);
      expect(openByTheBook(readFileSync(at('sealed')), PASSPHRASE).inside.equals(inside)).toBe(true);
      await openSealed(at('sealed'), at('again'), PASSPHRASE);
      expect(readFileSync(at('again')).equals(inside)).toBe(true);
    },
  );

  it('is refused with another passphrase, a changed byte or a missing end, and nothing is left', async () => {
    writeFileSync(at('open'), randomBytes(200_000));
    await sealFile(at('open'), at('sealed'), PASSPHRASE, work);
    await expect(openSealed(at('sealed'), at('out'), 'another one')).rejects.toThrow('not the passphrase');
    const whole = readFileSync(at('sealed'));
    const spoilt = Buffer.from(whole);
    spoilt[150_000]! ^= 1;
    for (const wrong of [spoilt, whole.subarray(0, 131_000), whole.subarray(0, 100), whole.subarray(0, 30)]) {
      writeFileSync(at('wrong'), wrong);
      await expect(openSealed(at('wrong'), at('out'), PASSPHRASE)).rejects.toThrow('damaged or cut off');
    }
    expect(readdirSync(root).toSorted()).toEqual(['open', 'sealed', 'wrong']);
  });

  // The build is there in `npm test`.
  const built = join(import.meta.dirname, '../../../dist/storage/backup/sealed/seal-aside.js');
  it.skipIf(!existsSync(built))(
    'is sealed by the built program in a thread, while the server goes on',
    async () => {
      writeFileSync(at('open'), 'every name, measurement and price');
      const { sealFile: sealAside } = await import(pathToFileURL(built).href);
      let turns = 0;
      const counting = setInterval(() => (turns += 1), 5);
      await sealAside(at('open'), at('sealed'), PASSPHRASE, 14);
      clearInterval(counting);
      expect(turns).toBeGreaterThan(3);
      expect(openByTheBook(readFileSync(at('sealed')), PASSPHRASE)).toMatchObject({ work: 14 });
    },
  );
});

describe.each(kinds)('a sealed backup, on %s', (kind) => {
  it('comes back with its passphrase only; the copy is never laid open in the folder of backups', async () => {
    const { home, leave } = await freshHome(kind);
    const source = await openForWriting(home);
    await new UnitOfWork(source, new StillClock()).write(odalys(), (writing) =>
      clientBook.add(writing, clientWords('Corvin Haddlestone')),
    );
    await source.destroy();
    mkdirSync(at('own'));
    const backups = new Backups(home, at('backups'), new StillClock(), {
      passphrase: PASSPHRASE,
      folder: at('own'),
      work,
    });
    const made = await backups.make();
    expect(made).toMatchObject({ sealed: true, counts: { client: 1 } });
    expect(made.name).toMatch(/\.(sqlite|jsonl)\.age$/);
    const file = join(at('backups'), made.name);
    expect(readdirSync(at('backups'))).toEqual([made.name]);
    expect(readFileSync(file).includes('Haddlestone')).toBe(false);
    expect(openByTheBook(readFileSync(file), PASSPHRASE).inside.includes('Haddlestone')).toBe(true);

    const elsewhere = await freshHome(kind);
    const say = (passphrase: string) => ({ passphrase: async () => passphrase, folder: at('own') });
    const put = (words?: ReturnType<typeof say>) =>
      restoreBackup(elsewhere.home, file, '2026-03-02T09:00:00.000Z', words);
    await expect(put()).rejects.toThrow('sealed');
    await expect(put(say('another one'))).rejects.toThrow('not the passphrase');
    expect((await put(say(PASSPHRASE))).counts.client).toBe(1);
    expect(readdirSync(at('own'))).toEqual([]);
    const restored = await openForReading(elsewhere.home);
    expect(await clientBook.count(restored)).toBe(1);
    await restored.destroy();
    await elsewhere.leave();
    await leave();
  });
});
