import type { Supplier } from '../../../domain/stock/material.js';
import { type SupplierWords, supplierBook } from '../../../storage/books/cloth-room/supplier-book.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';

export const addSupplier = (unit: UnitOfWork, visit: Visit, words: SupplierWords): Promise<Done<Supplier>> =>
  unit.write(visit, async (writing) => {
    const supplier = await supplierBook.add(writing, words);
    writing.says(`Added the supplier ${supplier.name}`, `supplier/${supplier.id}`);
    return supplier;
  });

/** @throws Stale when somebody corrected it meanwhile */
export const correctSupplier = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  words: SupplierWords,
  seen?: number,
): Promise<Done<Supplier>> =>
  unit.write(visit, async (writing) => {
    const supplier = await supplierBook.correct(writing, id, words, seen);
    writing.says(`Corrected the supplier ${supplier.name}`, `supplier/${supplier.id}`);
    return supplier;
  });
