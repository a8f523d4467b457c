import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Conflict, NotFound, Stale } from '../../src/domain/kernel/errors.js';
import { clientBook } from '../../src/storage/books/client-book.js';
import { ActRow } from '../../src/storage/history/act.row.js';
import { ChangeRow } from '../../src/storage/history/change.row.js';
import { OnceRow } from '../../src/storage/history/once.row.js';
import { undoAct } from '../../src/storage/history/undo.js';
import { ClientRow } from '../../src/storage/rows/clients/client.row.js';
import { AlreadyDone } from '../../src/storage/unit-of-work.js';
import { aKey, clientWords, type KeptHome, kinds, odalys, openKeptHome } from './kept-home.js';

const DAY = 24 * 60;

describe.each(kinds)('what is kept, on %s', (kind) => {
  let kept: KeptHome;
  beforeEach(async () => {
    kept = await openKeptHome(kind);
  });
  afterEach(() => kept.close());

  const add = (name: string, more = {}) =>
    kept.unit.write(odalys(), async (writing) => {
      const client = await clientBook.add(writing, clientWords(name, more));
      writing.says(`Added ${name}`, `client/${client.id}`);
      return client;
    });
  const correct = (id: string, name: string, seen?: number) =>
    kept.unit.write(odalys(), async (writing) => {
      const client = await clientBook.correct(writing, id, clientWords(name), seen);
      writing.says(`Corrected ${name}`, `client/${id}`);
      return client;
    });
  const refusal = (work: Promise<unknown>): Promise<string> =>
    work.then(
      () => 'done',
      (error: unknown) => (error instanceof Conflict ? error.code : String(error)),
    );

  describe('an act', () => {
    it('leaves who, when, what, from and to', async () => {
      const { value, act } = await add('Corvin Haddlestone');
      kept.clock.forward(5);
      const second = await correct(value.id, 'Corvin Haddlestone the younger');
      const acts = await kept.read.manager.find(ActRow, { order: { id: 'ASC' } });
      expect(
        acts.map(({ id, at, who_name, sentence, subject }) => [id, at, who_name, sentence, subject]),
      ).toEqual([
        [
          act,
          '2026-03-02T09:00:00.000Z',
          'Odalys Fenwright',
          'Added Corvin Haddlestone',
          `client/${value.id}`,
        ],
        [
          second.act,
          '2026-03-02T09:05:00.000Z',
          'Odalys Fenwright',
          'Corrected Corvin Haddlestone the younger',
          `client/${value.id}`,
        ],
      ]);
      const [change] = await kept.read.manager.findBy(ChangeRow, { act_id: second.act! });
      expect(JSON.parse(change?.before ?? '')).toMatchObject({ name: 'Corvin Haddlestone', version: 1 });
      expect(JSON.parse(change?.after ?? '')).toMatchObject({
        name: 'Corvin Haddlestone the younger',
        version: 2,
      });
    });

    it('that fails leaves nothing, not even its number', async () => {
      const failing = kept.unit.write(odalys(), async (writing) => {
        await clientBook.add(writing, clientWords('Half added'));
        throw new Error('on purpose');
      });
      await expect(failing).rejects.toThrow('on purpose');
      for (const row of [ClientRow, ActRow, ChangeRow]) expect(await kept.read.manager.count(row)).toBe(0);
      expect((await add('Whole')).value.code).toBe('C-0001');
    });

    it('that changes nothing is none', async () => {
      expect((await kept.unit.write(odalys(), async () => 'looked')).act).toBeUndefined();
    });

    it('with many changes keeps the order of them all', async () => {
      const { act } = await kept.unit.write(odalys(), async (writing) => {
        for (let place = 0; place < 230; place += 1)
          await clientBook.add(writing, clientWords(`Client ${place}`));
      });
      const changes = await kept.read.manager.find(ChangeRow, {
        where: { act_id: act! },
        order: { place: 'ASC' },
      });
      expect(changes.map(({ place }) => place)).toEqual(Array.from({ length: 230 }, (_, place) => place));
      expect(JSON.parse(changes[229]?.after ?? '')).toMatchObject({ name: 'Client 229' });
      await undoAct(kept.unit, odalys(), act!);
      expect(await kept.read.manager.count(ClientRow)).toBe(0);
    });
  });

  describe('a change made on an old version', () => {
    it('is refused with the present values', async () => {
      const { value } = await add('Two Hands');
      await correct(value.id, 'One hand', 1);
      const stale = await correct(value.id, 'Other hand', 1).catch((error: unknown) => error);
      expect(stale).toBeInstanceOf(Stale);
      expect((stale as Stale).present).toMatchObject({ name: 'One hand', version: 2 });
      expect((await clientBook.one(kept.read, value.id)).name).toBe('One hand');
    });

    it('is refused for one of two that come at the same moment', async () => {
      const { value } = await add('Two Hands');
      const ends = await Promise.allSettled([correct(value.id, 'A', 1), correct(value.id, 'B', 1)]);
      expect(ends.map(({ status }) => status).toSorted()).toEqual(['fulfilled', 'rejected']);
      expect(ends.flatMap((end) => (end.status === 'rejected' ? [end.reason] : []))[0]).toBeInstanceOf(Stale);
    });

    it('is refused when there is no such thing', async () => {
      await expect(correct('nobody', 'A')).rejects.toBeInstanceOf(NotFound);
    });
  });

  describe('undo', () => {
    it('takes an addition back, and the undoing can be undone; no version comes twice', async () => {
      const { value, act } = await add('Corvin Haddlestone');
      const undone = await undoAct(kept.unit, odalys(), act!);
      await expect(clientBook.one(kept.read, value.id)).rejects.toBeInstanceOf(NotFound);
      const last = await kept.read.manager.findOneByOrFail(ActRow, { id: undone.act! });
      expect([last.sentence, last.undoes]).toEqual(['Undid: Added Corvin Haddlestone', act]);
      await undoAct(kept.unit, odalys(), undone.act!);
      const back = await clientBook.one(kept.read, value.id);
      expect([back.name, back.code]).toEqual(['Corvin Haddlestone', 'C-0001']);
      expect(back.version).toBeGreaterThan(1);
      expect((await add('Next')).value.code).toBe('C-0002');
    });

    it('gives a correction back as it was', async () => {
      const { value } = await add('Before', { notes: 'left shoulder low' });
      const { act } = await correct(value.id, 'After');
      await undoAct(kept.unit, odalys(), act!);
      expect(await clientBook.one(kept.read, value.id)).toMatchObject({
        name: 'Before',
        notes: 'left shoulder low',
        version: 3,
      });
    });

    it('follows one row through several changes of the same act', async () => {
      const { value } = await add('Before');
      const { act } = await kept.unit.write(odalys(), async (writing) => {
        await clientBook.correct(writing, value.id, clientWords('Between'));
        await clientBook.correct(writing, value.id, clientWords('After'));
      });
      await undoAct(kept.unit, odalys(), act!);
      expect((await clientBook.one(kept.read, value.id)).name).toBe('Before');
    });

    it('is refused when it was changed since, undone already, sealed, too old, or not there', async () => {
      const { value, act } = await add('Corvin Haddlestone');
      const second = await correct(value.id, 'Changed since');
      expect(await refusal(undoAct(kept.unit, odalys(), act!))).toBe('changed-since');
      await undoAct(kept.unit, odalys(), second.act!);
      expect(await refusal(undoAct(kept.unit, odalys(), second.act!))).toBe('already-undone');
      const other = await add('Sealed');
      await kept.unit.write(odalys(), (writing) => writing.seal(`client/${other.value.id}`));
      expect(await refusal(undoAct(kept.unit, odalys(), other.act!))).toBe('sealed');
      const old = await add('Old');
      kept.clock.forward(31 * DAY);
      expect(await refusal(undoAct(kept.unit, odalys(), old.act!))).toBe('too-old');
      await expect(undoAct(kept.unit, odalys(), 'no such act')).rejects.toBeInstanceOf(NotFound);
      expect((await clientBook.one(kept.read, value.id)).name).toBe('Corvin Haddlestone');
    });

    it('is still possible on the thirtieth day', async () => {
      const { act } = await add('Old');
      kept.clock.forward(30 * DAY);
      expect(await refusal(undoAct(kept.unit, odalys(), act!))).toBe('done');
    });

    it('seals what lies below a subject, and not what only begins alike', async () => {
      const under = async (subject: string) =>
        (
          await kept.unit.write(odalys(), async (writing) => {
            await clientBook.add(writing, clientWords(subject));
            writing.says('Did', subject);
          })
        ).act!;
      const [below, alike] = [await under('commission/1/garment/2'), await under('commission/10')];
      await kept.unit.write(odalys(), (writing) => writing.seal('commission/1'));
      expect(await refusal(undoAct(kept.unit, odalys(), below))).toBe('sealed');
      expect(await refusal(undoAct(kept.unit, odalys(), alike))).toBe('done');
    });
  });

  describe('a once-only key', () => {
    it('carries an act out once, of two at the same moment too', async () => {
      const key = aKey();
      const press = () =>
        kept.unit.write(odalys(key), (writing) => clientBook.add(writing, clientWords('Once')));
      const ends = await Promise.allSettled([press(), press(), press()]);
      const refused = ends.flatMap((end) => (end.status === 'rejected' ? [end.reason] : []));
      expect(refused).toHaveLength(2);
      for (const reason of refused) expect(reason).toBeInstanceOf(AlreadyDone);
      expect(await kept.read.manager.count(ClientRow)).toBe(1);
    });

    it('is free again when its act failed', async () => {
      const visit = odalys(aKey());
      await expect(kept.unit.write(visit, () => Promise.reject(new Error('on purpose')))).rejects.toThrow();
      expect(await kept.read.manager.count(OnceRow)).toBe(0);
      await kept.unit.write(visit, (writing) => clientBook.add(writing, clientWords('Second try')));
      expect(await kept.read.manager.count(ClientRow)).toBe(1);
    });

    it('does not hinder one request from writing twice', async () => {
      const visit = odalys(aKey());
      await kept.unit.write(visit, (writing) => clientBook.add(writing, clientWords('First')));
      await kept.unit.write(visit, (writing) => clientBook.add(writing, clientWords('Second')));
      expect(await kept.read.manager.count(ClientRow)).toBe(2);
    });
  });
});
