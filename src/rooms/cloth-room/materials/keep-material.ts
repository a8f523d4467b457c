import { Invalid, NotFound } from '../../../domain/kernel/errors.js';
import { QUANTITY_UNITS } from '../../../domain/kernel/quantity.js';
import type { Material } from '../../../domain/stock/material.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { type MaterialWords, materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { supplierBook } from '../../../storage/books/cloth-room/supplier-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';

const mustKnowSupplier = async (writing: Writing, { supplierId }: MaterialWords): Promise<void> => {
  if (supplierId === undefined) return;
  try {
    await supplierBook.one(writing, supplierId);
  } catch (error) {
    if (!(error instanceof NotFound)) throw error;
    throw Invalid.field('supplierId', 'There is no such supplier. Choose one, or leave it empty.');
  }
};

export const addMaterial = (unit: UnitOfWork, visit: Visit, words: MaterialWords): Promise<Done<Material>> =>
  unit.write(visit, async (writing) => {
    await mustKnowSupplier(writing, words);
    const material = await materialBook.add(writing, words);
    writing.says(`Added the material ${material.name}`, `material/${material.id}`);
    return material;
  });

/**
 * @throws Stale when somebody corrected it meanwhile
 * @throws Invalid when it would be counted in another unit than its lots
 */
export const correctMaterial = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  words: MaterialWords,
  seen?: number,
): Promise<Done<Material>> =>
  unit.write(visit, async (writing) => {
    await mustKnowSupplier(writing, words);
    const before = await materialBook.one(writing, id);
    if (before.unit !== words.unit && (await lotBook.ofMaterial(writing, id)).length > 0)
      throw Invalid.field(
        'unit',
        `Its lots are counted in ${QUANTITY_UNITS[before.unit].words}: add a material of its own for another unit.`,
      );
    const material = await materialBook.correct(writing, id, words, seen);
    writing.says(`Corrected the material ${material.name}`, `material/${material.id}`);
    return material;
  });
