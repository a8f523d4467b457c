import { appendFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DataSource } from 'typeorm';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Trouble } from '../../../src/domain/kernel/errors.js';
import { Backups } from '../../../src/storage/backup/backups.js';
import { restoreBackup } from '../../../src/storage/backup/restore.js';
import { clientBook } from '../../../src/storage/books/client-book.js';
import { openForReading, openForWriting, optionsOf } from '../../../src/storage/connection/data-source.js';
import { ActRow } from '../../../src/storage/history/act.row.js';
import { AccountRow } from '../../../src/storage/rows/house/account.row.js';
import { SignInSessionRow } from '../../../src/storage/rows/house/sign-in-session.row.js';
import { UnitOfWork } from '../../../src/storage/unit-of-work.js';
import { StillClock } from '../../support/still-clock.js';
import { clientWords, freshHome, kinds, odalys } from '../kept-home.js';

describe.each(kinds)('a backup, on %s', (kind) => {
  let leave: () => Promise<void>;
  let home: Awaited<ReturnType<typeof freshHome>>['home'];
  let folder: string;
  let server: DataSource | undefined;
  let unit: UnitOfWork;
  let backups: Backups;
  const clock = new StillClock();

  const start = async (): Promise<DataSource> => {
    server = await openForWriting(home);
    unit = new UnitOfWork(server, clock);
    return server;
  };
  const stop = async (): Promise<void> => {
    await server?.destroy();
    server = undefined;
  };
  const add = (name: string) =>
    unit.write(odalys(), async (writing) => {
      const client = await clientBook.add(
        writing,
        clientWords(name, { notes: '“inside leg” {{x}} é\n2nd line' }),
      );
      writing.says(`Added ${name}`, `client/${client.id}`);
      return client;
    });
  const names = async (): Promise<string[]> => {
    const source = await openForReading(home);
    const { items } = await clientBook.find(source, '', 100);
    await source.destroy();
    return items.map(({ name }) => name);
  };
  const fileOf = (name: string): string => join(folder, name);

  beforeEach(async () => {
    ({ home, leave } = await freshHome(kind));
    folder = mkdtempSync(join(tmpdir(), 'bastings-backups-'));
    backups = new Backups(home, folder, clock);
    await start();
  });
  afterEach(async () => {
    await stop();
    await leave();
    rmSync(folder, { recursive: true, force: true });
  });

  it('is made while the studio works, and brings everything back', async () => {
    const { value } = await add('Corvin Haddlestone');
    const made = await backups.make();
    expect(made.counts).toMatchObject({ client: 1, act: 1, series: 1 });
    await add('Added later');
    await stop();
    const { replaced, counts } = await restoreBackup(home, fileOf(made.name), clock.now());
    expect(counts.client).toBe(1);
    expect(replaced).toContain('replaced');
    expect(await names()).toEqual(['Corvin Haddlestone']);
    await start();
    expect((await clientBook.one({ manager: server!.manager }, value.id)).notes).toContain('2nd line');
    expect((await add('Next')).value.code).toBe('C-0002');
  });

  it('holds no half act, even made in the midst of 60 of them', async () => {
    const writes = Array.from({ length: 60 }, (_, place) =>
      unit.write(odalys(), async (writing) => {
        await clientBook.add(writing, clientWords(`First ${place}`));
        await new Promise((resolve) => setTimeout(resolve, 2));
        await clientBook.add(writing, clientWords(`Second ${place}`));
      }),
    );
    await writes[10];
    const { counts } = await backups.make();
    await Promise.all(writes);
    expect(counts.client! % 2).toBe(0);
    expect(counts.client).toBe(2 * counts.act!);
    expect(counts.act).toBeGreaterThanOrEqual(11);
  });

  it('is listed by its moment, newest first, two of one second apart', async () => {
    const first = await backups.make();
    const second = await backups.make();
    clock.forward(60);
    const third = await backups.make();
    expect((await backups.list()).map(({ name }) => name)).toEqual([third.name, second.name, first.name]);
    expect(third.madeAt).toBe(clock.now());
    expect(third.bytes).toBe(readFileSync(fileOf(third.name)).length);
    expect(readdirSync(folder)).toHaveLength(3);
  });

  it('lets nobody read another file by its name', async () => {
    for (const name of ['../bastings.sqlite', '/etc/hostname', 'nothing.sqlite', ''])
      await expect(backups.read(name)).rejects.toThrow('There is no such backup');
  });

  it('is refused while the server runs on the data, which stays as it is', async () => {
    await add('Corvin Haddlestone');
    const { name } = await backups.make();
    await add('Added later');
    await expect(restoreBackup(home, fileOf(name), clock.now())).rejects.toThrow('Stop the server');
    expect(await names()).toEqual(['Added later', 'Corvin Haddlestone']);
    expect((await add('Still working')).value.code).toBe('C-0003');
  });

  it('is refused when it is something else, damaged or not there; what is present stays', async () => {
    await add('Corvin Haddlestone');
    const { name } = await backups.make();
    await stop();
    const whole = readFileSync(fileOf(name));
    writeFileSync(fileOf('cut'), whole.subarray(0, whole.length - 700));
    const shorter = whole.lastIndexOf('\n', whole.length - 2) + 1;
    writeFileSync(fileOf('shorter'), whole.subarray(0, shorter));
    writeFileSync(fileOf('letter'), 'Dear Corvin, your jacket is ready.');
    writeFileSync(fileOf('empty'), '');
    for (const wrong of ['cut', 'shorter', 'letter', 'empty', 'not there'])
      await expect(restoreBackup(home, fileOf(wrong), clock.now())).rejects.toBeInstanceOf(Trouble);
    expect(await names()).toEqual(['Corvin Haddlestone']);
  });

  it('of a newer release is refused', async () => {
    await server!.query(
      "INSERT INTO migrations (timestamp, name) VALUES (2000000000000, 'Later2000000000000')",
    );
    const { name } = await backups.make();
    await stop();
    await expect(restoreBackup(home, fileOf(name), clock.now())).rejects.toThrow('newer release');
  });

  it('brings nobody’s signed-in browser back, but the accounts', async () => {
    await server!.manager.insert(AccountRow, {
      id: 'a',
      version: 1,
      name: 'O',
      name_folded: 'o',
      role: 'owner',
      passphrase_hash: 'hash',
    });
    await server!.manager.insert(SignInSessionRow, { id: 's', account_id: 'a', begun_at: '', seen_at: '' });
    const { name } = await backups.make();
    await stop();
    await restoreBackup(home, fileOf(name), clock.now());
    await start();
    expect(await server!.manager.count(SignInSessionRow)).toBe(0);
    expect(await server!.manager.count(AccountRow)).toBe(1);
    expect(await server!.manager.count(ActRow)).toBe(0);
  });

  it('goes into an empty place as well', async () => {
    await add('Corvin Haddlestone');
    const { name } = await backups.make();
    await stop();
    const elsewhere = await freshHome(kind);
    await restoreBackup(elsewhere.home, fileOf(name), clock.now());
    const source = await new DataSource(optionsOf(elsewhere.home)).initialize();
    expect(await source.manager.count(ActRow)).toBe(1);
    await source.destroy();
    await elsewhere.leave();
  });

  const onOneFile = kind === 'sqlite' ? it : () => undefined;
  onOneFile('replaces a damaged file, which is kept too', async () => {
    await add('Corvin Haddlestone');
    const { name } = await backups.make();
    await stop();
    const file = home.kind === 'sqlite' ? home.file : '';
    writeFileSync(file, 'spoilt');
    appendFileSync(`${file}-wal`, 'spoilt too');
    const { replaced } = await restoreBackup(home, fileOf(name), clock.now());
    expect(readFileSync(replaced!, 'utf8')).toBe('spoilt');
    expect(await names()).toEqual(['Corvin Haddlestone']);
  });
});
