import { extraOfLine } from '../../../domain/commissions/agreed-plan.js';
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

/** Which extra put a line into the plan of a garment, by the line's key. */
export const extraNumbersOf = async (
  reading: Reading,
  garmentId: string,
): Promise<ReadonlyMap<string, number>> =>
  new Map(
    [...extraOfLine(await extraBook.ofGarment(reading, garmentId))].map(([line, { number }]) => [
      line,
      number,
    ]),
  );
