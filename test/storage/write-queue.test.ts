import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { clientBook } from '../../src/storage/books/client-book.js';
import { ActRow } from '../../src/storage/history/act.row.js';
import { OnceRow } from '../../src/storage/history/once.row.js';
import { undoAct } from '../../src/storage/history/undo.js';
import { ClientRow } from '../../src/storage/rows/clients/client.row.js';
import { WriteQueue } from '../../src/storage/write-queue.js';
import { clientWords, type KeptHome, odalys, openKeptHome } from './kept-home.js';

let kept: KeptHome;
beforeEach(async () => {
  kept = await openKeptHome('sqlite');
});
afterEach(() => kept.close());

const soon = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 2));
const onceRow = (id: string) => ({ id, fingerprint: '', at: '', status: null, location: null, body: null });

/** A promise that is settled from outside. */
const gate = () => {
  let open: () => void = () => undefined;
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  return { open, opened };
};

const WRITES = 160;
const fails = (place: number): boolean => place % 5 === 4;

describe('two overlapping transactions on the one connection that TypeORM gives SQLite', () => {
  it('lose an acknowledged write without the queue: this is why there is one', async () => {
    const [second, first] = [gate(), gate()];
    const slow = kept.writing.transaction(async (manager) => {
      await manager.insert(OnceRow, onceRow('slow'));
      second.open();
      await first.opened;
      throw new Error('the first one fails late');
    });
    await second.opened;
    await kept.writing.transaction((manager) => manager.insert(OnceRow, onceRow('acknowledged')));
    first.open();
    await expect(slow).rejects.toThrow('fails late');
    expect(await kept.read.manager.countBy(OnceRow, { id: 'acknowledged' })).toBe(0);
  });

  it('and keep it with the queue', async () => {
    const queue = new WriteQueue();
    const second = gate();
    const slow = queue.run(() =>
      kept.writing.transaction(async (manager) => {
        await manager.insert(OnceRow, onceRow('slow'));
        second.open();
        await soon();
        throw new Error('the first one fails late');
      }),
    );
    await second.opened;
    const quick = queue.run(() =>
      kept.writing.transaction((manager) => manager.insert(OnceRow, onceRow('acknowledged'))),
    );
    await expect(slow).rejects.toThrow('fails late');
    await quick;
    expect(await kept.read.manager.countBy(OnceRow, { id: 'acknowledged' })).toBe(1);
    expect(await kept.read.manager.countBy(OnceRow, { id: 'slow' })).toBe(0);
  });

  it('cannot carry 160 concurrent writes without the queue: some are refused or lost', async () => {
    const ends = await Promise.allSettled(
      Array.from({ length: WRITES }, (_, place) =>
        kept.writing.transaction(async (manager) => {
          await manager.insert(OnceRow, onceRow(`write ${place}`));
          await soon();
          if (fails(place)) throw new Error('on purpose');
        }),
      ),
    );
    const acknowledged = ends.filter(({ status }) => status === 'fulfilled').length;
    const present = await kept.read.manager.count(OnceRow);
    expect(acknowledged === (WRITES * 4) / 5 && present === acknowledged).toBe(false);
  });
});

describe('the unit of work under 160 concurrent writes, a fifth of them failing', () => {
  it('keeps every acknowledged one whole, none of the failed, and burns no number', async () => {
    const ends = await Promise.allSettled(
      Array.from({ length: WRITES }, (_, place) =>
        kept.unit.write(odalys(), async (writing) => {
          const client = await clientBook.add(writing, clientWords(`Client ${place}`));
          writing.says(`Added ${client.name}`, `client/${client.id}`);
          await soon();
          if (fails(place)) throw new Error('on purpose');
          return client.code;
        }),
      ),
    );
    const acknowledged = ends.flatMap((end) => (end.status === 'fulfilled' ? [end.value.value] : []));
    const present = await kept.read.manager.find(ClientRow, { order: { code: 'ASC' } });
    expect(acknowledged).toHaveLength((WRITES * 4) / 5);
    expect(present.map(({ code }) => code)).toEqual(acknowledged.toSorted());
    expect(present.at(-1)?.code).toBe('C-0128');
    expect(await kept.read.manager.count(ActRow)).toBe(acknowledged.length);
  });

  it('shows no reader a row of a write that has not ended', async () => {
    const seen: number[] = [];
    const dirty: boolean[] = [];
    const writes = Array.from({ length: 20 }, (_, place) =>
      kept.unit.write(odalys(), async (writing) => {
        await clientBook.add(writing, clientWords(`First of pair ${place}`));
        const own = await writing.manager.count(ClientRow);
        const before = await kept.read.manager.count(ClientRow);
        dirty.push(before >= own);
        await soon();
        await clientBook.add(writing, clientWords(`Second of pair ${place}`));
        if (fails(place)) throw new Error('on purpose');
      }),
    );
    const looking = Array.from({ length: 60 }, async (_, place) => {
      await new Promise((resolve) => setTimeout(resolve, place));
      seen.push(await kept.read.manager.count(ClientRow));
    });
    await Promise.allSettled([...writes, ...looking]);
    expect(dirty).toEqual(Array.from({ length: 20 }, () => false));
    expect(seen).toHaveLength(60);
    expect(seen.filter((count) => count % 2 === 1)).toEqual([]);
    expect(await kept.read.manager.count(ClientRow)).toBe(32);
  });

  it('joins a write inside a write: one act, one transaction, no waiting for itself', async () => {
    const { act } = await kept.unit.write(odalys(), async (writing) => {
      await clientBook.add(writing, clientWords('Outer'));
      const inner = await kept.unit.write(odalys(), (same) => clientBook.add(same, clientWords('Inner')));
      expect(inner.act).toBeUndefined();
      await kept.unit.aside((manager) => manager.insert(OnceRow, onceRow('aside, inside')));
    });
    expect(act).toBeDefined();
    expect(await kept.read.manager.count(ActRow)).toBe(1);
    expect(await kept.read.manager.count(ClientRow)).toBe(2);
  });

  it('goes on after a failure, and `idle` ends when the last queued write has ended', async () => {
    const ended: string[] = [];
    const failing = kept.unit.write(odalys(), async () => Promise.reject(new Error('on purpose')));
    failing.catch(() => ended.push('failed'));
    void kept.unit.write(odalys(), async () => {
      await soon();
      ended.push('last');
    });
    await kept.unit.idle();
    expect(ended).toEqual(['failed', 'last']);
  });

  it('refuses what could only wait for its own end', async () => {
    const waiting = kept.unit.write(odalys(), () => undoAct(kept.unit, odalys(), 'any act'));
    await expect(waiting).rejects.toThrow('its own end');
    await kept.unit.write(odalys(), (writing) => clientBook.add(writing, clientWords('Afterwards')));
    expect(await kept.read.manager.count(ClientRow)).toBe(1);
  });

  it('lets the read side write nothing', async () => {
    await expect(kept.read.manager.insert(OnceRow, onceRow('through the wrong door'))).rejects.toThrow(
      /readonly/,
    );
  });
});
