import { grouped } from '../../../domain/stock/grouped.js';
import type { BoughtFor } from '../../../domain/stock/spend-rows.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import type { Reading } from '../../../storage/session.js';

/** What came for planned lines, less what went back to the supplier. */
export const boughtFor = async (reading: Reading, lineIds: readonly string[]): Promise<BoughtFor[]> => {
  const lots = await lotBook.forLines(reading, lineIds);
  const sentBack = await entryBook.sentBack(
    reading,
    lots.map(({ id }) => id),
  );
  const goneOf = grouped(sentBack, ({ lotId }) => lotId);
  return lots.flatMap((lot) => {
    if (lot.lineId === undefined) return [];
    const gone = goneOf.get(lot.id) ?? [];
    return [
      {
        lineId: lot.lineId,
        materialId: lot.materialId,
        quantity: gone.reduce((sum, part) => sum.plus(part.quantity), lot.received),
        cost: gone.reduce((sum, part) => sum.plus(part.cost), lot.landed),
      },
    ];
  });
};
