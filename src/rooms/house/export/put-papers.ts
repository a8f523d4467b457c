import type { EntityManager } from 'typeorm';
import { ciiOf } from '../../../printing/exchange/cii/cii.js';
import { ublOf } from '../../../printing/exchange/ubl/ubl.js';
import { invoiceDocumentOf } from '../../../storage/books/papers/invoice-text.js';
import type { ZipFile } from '../../../storage/moving/export/zip-file.js';
import { rowsOf, tablesOf } from '../../../storage/moving/portable-rows.js';

/** A paper's number as the name of a file; two that come out alike are told apart. */
const nameFiles = (): ((wanted: string) => string) => {
  const taken = new Set<string>();
  return (wanted) => {
    const plain = wanted.replaceAll(/[^\p{L}\p{N}._-]+/gu, '-').replace(/^\.+/, '') || 'paper';
    let name = plain;
    for (let place = 2; taken.has(name.toLowerCase()); place += 1) name = `${plain}-${place}`;
    taken.add(name.toLowerCase());
    return name;
  };
};

const bytesOf = (text: unknown): Buffer => Buffer.from(String(text), 'base64');

/** Puts the papers as they were issued, invoices also as data, and the pictures. */
export const putPapers = async (zip: ZipFile, manager: EntityManager): Promise<void> => {
  const nameOf = nameFiles();
  const rows = (table: string) => {
    const found = tablesOf(manager.connection).find(({ tableName }) => tableName === table);
    if (!found) throw new Error(`There is no table ${table}.`);
    return rowsOf(manager, found);
  };
  /** Keys first, then one row of bytes after the other. */
  const names = new Map<string, string>();
  for await (const { id, number, document } of rows('invoice')) {
    const name = nameOf(String(number));
    names.set(String(id), name);
    const { paper } = invoiceDocumentOf({ document: String(document) });
    await zip.whole(`papers/${name}.ubl.xml`, ublOf(paper));
    await zip.whole(`papers/${name}.cii.xml`, ciiOf(paper));
  }
  for await (const { id, number, edition } of rows('issued_quote'))
    names.set(String(id), nameOf(`${number}-version-${edition}`));
  for await (const { id, number } of rows('receipt')) names.set(String(id), nameOf(String(number)));
  for (const table of ['invoice_pdf', 'quote_pdf', 'receipt_pdf'])
    for await (const { id, bytes } of rows(table))
      await zip.whole(`papers/${names.get(String(id)) ?? id}.pdf`, bytesOf(bytes), false);
  for await (const { id, picture_bytes } of rows('photo_picture'))
    await zip.whole(`pictures/${nameOf(String(id))}.jpg`, bytesOf(picture_bytes), false);
  for await (const { kind, bytes } of rows('studio_mark'))
    await zip.whole(`pictures/mark.${kind === 'svg' ? 'svg' : 'png'}`, bytesOf(bytes));
};
