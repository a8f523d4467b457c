import '../../rooms/work-out/threads.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closedGarmentText } from '../../../src/domain/lessons/closed-garment.js';
import { garmentMarkBook } from '../../../src/storage/books/bench/garment-mark-book.js';
import { studioBook } from '../../../src/storage/books/studio-book.js';
import { lessonBook } from '../../../src/storage/lesson/lesson-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

describe('the fitted lesson', () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  /** Closes a garment of so many operations, each overrun by a half. */
  const close = async (garmentId: string, operations: number, document?: string): Promise<string> => {
    studio.clock.forward(1);
    const { value } = await studio.unit.write(studio.visit, async (writing) => {
      const words = { garmentId, commissionId: 'c', kind: 'closed' as const, on: '2026-03-20', words: '' };
      const frozen = closedGarmentText({
        garmentId,
        commissionId: 'c',
        name: 'Jacket',
        typeId: 'lounge-jacket',
        closedOn: '2026-03-20',
        begunOn: undefined,
        endedOn: undefined,
        repeat: 1,
        operations: Array.from({ length: operations }, (_, n) => ({
          operationId: `o${n}`,
          kind: `kind ${n}`,
          name: `Kind ${n}`,
          mode: 'hand' as const,
          stage: 'make' as const,
          plannedMinutes: 60,
          actualMinutes: 90,
          ownErrorMinutes: 0,
          leftOut: false,
          forgotten: false,
          changeNotReplanned: false,
        })),
        totals: { plannedMinutes: 0, actualMinutes: 0, ownErrorMinutes: 0, besideMinutes: 0 },
      });
      writing.says('Closed a jacket', 'commission/c');
      return garmentMarkBook.add(writing, { ...words, operationId: undefined, document: document ?? frozen });
    });
    return value.id;
  };
  const garments = async () => (await lessonBook.present(studio.read)).garments;

  it('is the starting values until a garment is closed, then rests on it at once; taking the closing back takes it out', async () => {
    expect(await garments()).toBe(0);
    const mark = await close('g1', 12);
    expect(await garments()).toBe(1);
    await studio.unit.write(studio.visit, async (writing) => {
      await garmentMarkBook.takeBack(writing, mark, 'Opened again');
      writing.says('Opened a reckoning again', 'commission/c');
    });
    expect(await garments()).toBe(0);
  });

  it('learns nothing from what cannot be read, and everything from the rest', async () => {
    await close('g2', 3, '{"lesson":1}');
    await close('g3', 3, '');
    await close('g4', 12);
    expect(await garments()).toBe(1);
  });

  it('is the same inside a write, and follows the answer to “do you usually run over?”', async () => {
    const { value } = await studio.unit.write(studio.visit, async (writing) => {
      const present = await studioBook.the(writing);
      const lesson = await lessonBook.present(writing);
      await studioBook.correct(writing, {
        ...present,
        overruns: present.overruns === 'no' ? 'a-lot' : 'no',
      });
      writing.says('Said how plans usually run', 'house');
      return lesson;
    });
    expect(value.garments).toBe(1);
    const after = await lessonBook.present(studio.read);
    expect(after.garments).toBe(1);
    expect(after.belief.m0).not.toBe(value.belief.m0);
  });

  it('of many rows is fitted beside the requests, which go on with the last one meanwhile', async () => {
    const before = await lessonBook.present(studio.read);
    await close('g5', 160);
    expect(await lessonBook.present(studio.read)).toBe(before);
    const after = await lessonBook.upToDate(studio.read);
    expect(after.garments).toBe(2);
    expect(await lessonBook.present(studio.read)).toBe(after);
  });
});
