import { type ClosedGarment, closedGarmentText } from '../../../src/domain/lessons/closed-garment.js';
import { garmentMarkBook } from '../../../src/storage/books/bench/garment-mark-book.js';
import type { TestStudio } from '../../support/studio.js';

/** Closes invented garments, each with what its reckoning would have frozen beside the lesson. */
export const closeGarments = async (
  studio: TestStudio,
  garments: readonly (ClosedGarment & { readonly reckoning?: object })[],
): Promise<string[]> => {
  studio.clock.forward(1);
  const { value } = await studio.unit.write(studio.visit, async (writing) => {
    writing.says('Closed garments', 'commission/c');
    const ids: string[] = [];
    for (const { reckoning, ...garment } of garments) {
      const document = JSON.stringify({ ...JSON.parse(closedGarmentText(garment)), reckoning });
      const { id } = await garmentMarkBook.add(writing, {
        garmentId: garment.garmentId,
        commissionId: garment.commissionId,
        kind: 'closed',
        operationId: undefined,
        on: garment.closedOn,
        words: '',
        document,
      });
      ids.push(id);
    }
    return ids;
  });
  return value;
};
