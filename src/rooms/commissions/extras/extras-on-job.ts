import { extraBook } from '../../../storage/books/bench/extra-book.js';
import type { Reading } from '../../../storage/session.js';
import { garmentUrl } from '../commission.page.js';
import { extrasTable, extrasUrl } from './extra-words.js';

/** The extras of a garment as its job sheet shows them. */
export const extrasOnJob = async (
  reading: Reading,
  { commissionId, id }: { readonly commissionId: string; readonly id: string },
  locale: string,
): Promise<Record<string, unknown>> => {
  const extras = await extraBook.ofGarment(reading, id);
  return {
    any: extras.length > 0,
    table: extrasTable(extras, locale),
    begin: `${garmentUrl(commissionId, id)}/extras/new`,
    all: extrasUrl(commissionId),
  };
};
