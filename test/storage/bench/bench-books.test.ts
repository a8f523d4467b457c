import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { EntryWords } from '../../../src/storage/books/bench/bench-book.js';
import { benchBook } from '../../../src/storage/books/bench/bench-book.js';
import { clockBook } from '../../../src/storage/books/bench/clock-book.js';
import { garmentMarkBook } from '../../../src/storage/books/bench/garment-mark-book.js';
import { personBook } from '../../../src/storage/books/bench/person-book.js';
import type { Writing } from '../../../src/storage/session.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const work = <T>(act: (writing: Writing) => Promise<T>): Promise<T> =>
  studio.unit
    .write(studio.visit, async (writing) => {
      writing.says('Worked', 'bench');
      return act(writing);
    })
    .then(({ value }) => value);

const on = {
  commissionId: undefined,
  garmentId: undefined,
  garmentName: '',
  operationId: undefined,
  kind: '',
  name: 'post',
  stage: undefined,
  mode: 'desk' as const,
  away: 'post' as const,
  cause: undefined,
  extraId: undefined,
};

describe('the bench books', () => {
  it('know the owner as one person, however often they work', async () => {
    const first = await work((writing) => personBook.mine(writing));
    const again = await work((writing) => personBook.mine(writing));
    expect(again.id).toBe(first.id);
    expect(first).toMatchObject({ name: 'Odalys Fenwright', role: 'owner' });
  });

  it('start one clock for a person, and stop it into minutes', async () => {
    const { id, name } = await work((writing) => personBook.mine(writing));
    await work((writing) =>
      clockBook.start(writing, { personId: id, begunAt: '2026-03-02T09:00:00Z', ...on }),
    );
    await expect(
      work((writing) => clockBook.start(writing, { personId: id, begunAt: '2026-03-02T09:00:00Z', ...on })),
    ).rejects.toThrow();
    await work(async (writing) => {
      const clock = await clockBook.stop(writing, id);
      const words: EntryWords = {
        ...clock,
        personName: name,
        minutes: 75,
        on: '2026-03-02',
        endedAt: '2026-03-02T10:15:00Z',
        way: 'clock',
        note: '',
      };
      return benchBook.add(writing, words);
    });
    expect(await clockBook.of(studio.read, id)).toBeUndefined();
    const [entry] = await benchBook.ofDay(studio.read, id, '2026-03-02');
    expect(entry).toMatchObject({ minutes: 75, away: 'post', begunAt: '2026-03-02T09:00:00Z' });
  });

  it('take an entry back once', async () => {
    const { id } = await work((writing) => personBook.mine(writing));
    const [entry] = await benchBook.ofDay(studio.read, id, '2026-03-02');
    const reversal = await work((writing) => benchBook.reverse(writing, entry?.id ?? '', 'it was a wedding'));
    expect(reversal).toMatchObject({ minutes: -75, of: entry?.id });
    await expect(work((writing) => benchBook.reverse(writing, entry?.id ?? '', ''))).rejects.toThrow(
      'already',
    );
    await expect(work((writing) => benchBook.reverse(writing, reversal.id, ''))).rejects.toThrow('anew');
  });

  it('keep marks on a garment and take them back once', async () => {
    const words = {
      garmentId: 'g',
      commissionId: 'c',
      operationId: undefined,
      on: '2026-03-02',
      words: '',
      document: '',
    };
    const mark = await work((writing) => garmentMarkBook.add(writing, { ...words, kind: 'closed' }));
    await expect(garmentMarkBook.mustBeOpen(studio.read, 'g')).rejects.toThrow('closed');
    await work((writing) => garmentMarkBook.takeBack(writing, mark.id, 'a bill came late'));
    expect(await garmentMarkBook.standing(studio.read, 'g')).toBe('to-make');
    await expect(work((writing) => garmentMarkBook.takeBack(writing, mark.id, ''))).rejects.toThrow(
      'already',
    );
  });
});
