import { DataSource } from 'typeorm';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openForWriting } from '../../src/storage/connection/data-source.js';
import { SeriesRow } from '../../src/storage/rows/house/series.row.js';
import { type KeptHome, openKeptHome } from './kept-home.js';

let kept: KeptHome;
const others: DataSource[] = [];
beforeEach(async () => {
  kept = await openKeptHome('sqlite');
});
afterEach(async () => {
  for (const other of others.splice(0)) await other.destroy();
  await kept.close();
});

const file = (): string => (kept.home.kind === 'sqlite' ? kept.home.file : '');
const opened = (source: DataSource): DataSource => {
  others.push(source);
  return source;
};
/** The driver as it comes, without the guard. */
const plain = async (): Promise<DataSource> =>
  opened(
    await new DataSource({
      type: 'sqlite',
      database: file(),
      entities: [SeriesRow],
      busyTimeout: 5000,
    }).initialize(),
  );

/** Reads the count, lets another process write, then writes on what it read. */
const countOn = (source: DataSource, meanwhile: () => Promise<unknown> = async () => undefined) =>
  source.transaction(async (manager) => {
    const row = await manager.findOneByOrFail(SeriesRow, { id: 'client' });
    await meanwhile();
    await manager.update(SeriesRow, { id: 'client' }, { last: row.last + 1 });
  });

describe('a transaction that reads and then writes, while another process writes', () => {
  beforeEach(() =>
    kept.writing.manager.insert(SeriesRow, { id: 'client', version: 1, pattern: '', last: 0 }),
  );

  it('is refused at once by the plain driver, whatever the time to wait', async () => {
    const [one, other] = [await plain(), await plain()];
    await expect(countOn(one, () => countOn(other))).rejects.toThrow(/SQLITE_BUSY/);
  });

  it('takes its lock at the beginning with the guard, so that both are counted', async () => {
    const other = opened(await openForWriting(kept.home));
    let second: Promise<unknown> = Promise.resolve();
    await countOn(kept.writing, async () => {
      second = countOn(other);
      await new Promise((resolve) => setTimeout(resolve, 50));
    });
    await second;
    const row = await kept.read.manager.findOneByOrFail(SeriesRow, { id: 'client' });
    expect(row.last).toBe(2);
  });
});

describe('a value that SQLite would keep wrongly without a word', () => {
  const insert = "INSERT INTO series (id, version, pattern, last) VALUES ('x', 1, '', ?)";
  const kindOf = async (source: DataSource): Promise<unknown> =>
    (await source.query("SELECT typeof(last) AS kind FROM series WHERE id = 'x'"))[0]?.kind;

  it('is kept as nothing, or as something else, by the plain driver', async () => {
    const source = await plain();
    await source.query('CREATE TABLE loose (kept)');
    for (const value of [12n, Number.NaN]) await source.query('INSERT INTO loose VALUES (?)', [value]);
    const kinds = await source.query('SELECT typeof(kept) AS kind FROM loose');
    expect(kinds).toEqual([{ kind: 'null' }, { kind: 'null' }]);
  });

  it.each([
    ['a bigint', 12n],
    ['a Date', new Date(0)],
    ['undefined', undefined],
    ['NaN', Number.NaN],
    ['infinity', Number.POSITIVE_INFINITY],
    ['an integer past 2^53', 2 ** 53],
  ])('is refused by the guard: %s', async (_, value) => {
    await expect(kept.writing.query(insert, [value])).rejects.toThrow(/cannot be stored/);
    expect(await kindOf(kept.writing)).toBeUndefined();
  });

  it('passes what is safe', async () => {
    await kept.writing.query(insert, [2 ** 53 - 1]);
    expect(await kindOf(kept.writing)).toBe('integer');
  });
});

it('waits, writes ahead, keeps references and flushes to the disk', async () => {
  const pragma = async (name: string): Promise<unknown> =>
    Object.values((await kept.writing.query(`PRAGMA ${name}`))[0] ?? {})[0];
  expect(await pragma('journal_mode')).toBe('wal');
  expect(await pragma('foreign_keys')).toBe(1);
  expect(await pragma('busy_timeout')).toBe(5000);
  expect(await pragma('synchronous')).toBe(2);
  expect(await kept.reading.query('PRAGMA query_only')).toEqual([{ query_only: 1 }]);
});

describe('a transaction that SQLite itself rolled back, since the disk is full', () => {
  /** A full disk, then an act that fails, then one that is acknowledged; answers the count that others see. */
  const countAfter = async (source: DataSource): Promise<number> => {
    await source.manager.insert(SeriesRow, { id: 'client', pattern: '', last: 0, version: 1 });
    const [{ page_count: pages }] = await source.query('PRAGMA page_count');
    await source.query(`PRAGMA max_page_count = ${pages}`);
    const tooLarge = source.transaction((manager) =>
      manager.insert(SeriesRow, { id: 'x'.repeat(200_000), pattern: '', last: 1, version: 1 }),
    );
    await expect(tooLarge).rejects.toThrow('SQLITE_FULL');
    await source.query('PRAGMA max_page_count = 4294967294');
    const failing = source.transaction(async (manager) => {
      await manager.update(SeriesRow, { id: 'client' }, { last: 40 });
      throw new Error('no');
    });
    await expect(failing).rejects.toThrow('no');
    await source.transaction((manager) => manager.update(SeriesRow, { id: 'client' }, { last: 7 }));
    const other = await plain();
    return (await other.manager.findOneByOrFail(SeriesRow, { id: 'client' })).last;
  };

  it('makes the plain driver acknowledge writes that are never kept', async () => {
    expect(await countAfter(await plain())).not.toBe(7);
  });

  it('is over with the guard, and what follows is kept', async () => {
    const guarded = opened(await openForWriting(kept.home));
    expect(await countAfter(guarded)).toBe(7);
  });
});
