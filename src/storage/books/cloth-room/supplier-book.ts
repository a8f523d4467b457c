import { foldForSearch } from '../../../domain/clients/client.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import type { Supplier } from '../../../domain/stock/material.js';
import { SupplierRow } from '../../rows/cloth-room/supplier.row.js';
import type { Reading, Writing } from '../../session.js';
import { holdingWords } from './folded-words.js';

export type SupplierWords = Omit<Supplier, 'id' | 'version'>;

/** The book of suppliers. */
export const supplierBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Supplier> {
    const row = await reading.manager.findOneBy(SupplierRow, { id });
    if (!row) throw new NotFound('supplier');
    return supplierOf(row);
  },

  /** By name; those that hold every word asked for. */
  async find(reading: Reading, asked = '', limit = 500): Promise<Supplier[]> {
    const query = reading.manager
      .createQueryBuilder(SupplierRow, 'supplier')
      .orderBy('supplier.folded')
      .addOrderBy('supplier.id');
    return (await holdingWords(query, 'supplier', asked).take(limit).getMany()).map(supplierOf);
  },

  async add(writing: Writing, words: SupplierWords): Promise<Supplier> {
    return supplierOf(await writing.insert(SupplierRow, { id: writing.newId(), ...columnsOf(words) }));
  },

  /** @throws Stale when somebody corrected it meanwhile */
  async correct(writing: Writing, id: string, words: SupplierWords, seen?: number): Promise<Supplier> {
    return supplierOf(await writing.update(SupplierRow, id, columnsOf(words), seen));
  },
};

const supplierOf = ({ folded: _, ...row }: SupplierRow): Supplier => ({ ...row });

const columnsOf = (words: SupplierWords): Omit<SupplierRow, 'id' | 'version'> => ({
  ...words,
  folded: foldForSearch([words.name, words.email, words.phone.replace(/[\s()-]/g, '')].join(' ')),
});
