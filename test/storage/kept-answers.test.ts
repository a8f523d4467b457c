import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { clientBook } from '../../src/storage/books/client-book.js';
import { openForWriting } from '../../src/storage/connection/data-source.js';
import { UnitOfWork } from '../../src/storage/unit-of-work.js';
import { clientWords, type KeptHome, kinds, odalys, openKeptHome } from './kept-home.js';

describe.each(kinds)('answers kept while nothing was written, on %s', (kind) => {
  let kept: KeptHome;
  beforeEach(async () => {
    kept = await openKeptHome(kind);
  });
  afterEach(() => kept.close());

  const add = (unit: UnitOfWork, name: string) =>
    unit.write(odalys(), (writing) => clientBook.add(writing, clientWords(name)));
  const names = async (): Promise<string[]> =>
    (await clientBook.find(kept.read, '')).items.map(({ name }) => name);

  it('are new after a write of this program', async () => {
    expect(await names()).toEqual([]);
    await add(kept.unit, 'Corvin Haddlestone');
    expect(await names()).toEqual(['Corvin Haddlestone']);
    expect(await names()).toEqual(['Corvin Haddlestone']);
  });

  it('are new after a write of another program on the same data', async () => {
    expect(await names()).toEqual([]);
    const other = await openForWriting(kept.home);
    await add(new UnitOfWork(other, kept.clock), 'Corvin Haddlestone');
    expect(await names()).toEqual(['Corvin Haddlestone']);
    await other.destroy();
  });

  it('tell by their moment, asked inside a write, whether anything was written since', async () => {
    const moment = await kept.read.moment();
    expect(moment === undefined).toBe(kind === 'postgres');
    await kept.unit.write(odalys(), async () => expect(await kept.read.moment()).toBe(moment));
    const other = await openForWriting(kept.home);
    await add(new UnitOfWork(other, kept.clock), 'Corvin Haddlestone');
    await other.destroy();
    await kept.unit.write(odalys(), async () => {
      const now = await kept.read.moment();
      expect(now === moment).toBe(kind === 'postgres');
    });
  });

  it('are never those of a write that has not ended', async () => {
    await kept.unit.write(odalys(), async (writing) => {
      await clientBook.add(writing, clientWords('Corvin Haddlestone'));
      expect(await names()).toEqual([]);
      expect((await clientBook.find(writing, '')).items).toHaveLength(1);
    });
    expect(await names()).toEqual(['Corvin Haddlestone']);
  });

  it('are asked for again when a write ended while they were read', async () => {
    const slow = await kept.read.kept('slow', async () => {
      const before = await names();
      await add(kept.unit, 'Corvin Haddlestone');
      await names();
      return before;
    });
    expect(slow).toEqual([]);
    expect(await kept.read.kept('slow', names)).toEqual(['Corvin Haddlestone']);
  });

  it('hold for the whole of a visit that only looks, and the next visit sees what was written', async () => {
    const look = (visit: () => Promise<void>) =>
      new Promise<void>((done, failed) => {
        kept.read.looking(() => void visit().then(done, failed));
      });
    await look(async () => expect(await names()).toEqual([]));
    await add(kept.unit, 'Corvin Haddlestone');
    await look(async () => {
      expect(await names()).toEqual(['Corvin Haddlestone']);
      expect(await names()).toEqual(['Corvin Haddlestone']);
    });
  });

  it('that failed are not kept', async () => {
    const failing = kept.read.kept('once', () => Promise.reject(new Error('The disk is gone.')));
    await expect(failing).rejects.toThrow('The disk is gone.');
    expect(await kept.read.kept('once', async () => 'here again')).toBe('here again');
  });
});

it('an answer is read once on SQLite while nothing is written', async () => {
  const kept = await openKeptHome('sqlite');
  let asked = 0;
  const ask = () => kept.read.kept('asked', async () => ++asked);
  expect([await ask(), await ask(), await ask()]).toEqual([1, 1, 1]);
  await kept.close();
});
