import { benchBook } from '../../../src/storage/books/bench/bench-book.js';
import { personBook } from '../../../src/storage/books/bench/person-book.js';
import type { TestStudio } from '../../support/studio.js';

/** The owner's minutes by hand on a garment, written for 2 March 2026. */
export const workedOn = (
  studio: TestStudio,
  order: { readonly id: string },
  garmentId: string,
  minutes: number,
): Promise<unknown> =>
  studio.unit.write(studio.visit, async (writing) => {
    const { id, name } = await personBook.mine(writing);
    await benchBook.add(writing, {
      commissionId: order.id,
      garmentId,
      garmentName: 'Gown',
      operationId: undefined,
      kind: 'make',
      name: 'seams',
      stage: 'make',
      mode: 'hand',
      away: undefined,
      cause: undefined,
      extraId: undefined,
      personId: id,
      personName: name,
      minutes,
      on: '2026-03-02',
      begunAt: undefined,
      endedAt: undefined,
      way: 'line',
      note: '',
    });
    writing.says('Worked', 'bench');
  });
