import type { Decimal } from '../../../domain/kernel/decimal.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import type { Promised } from '../../../domain/stock/promised.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { reservationBook } from '../../../storage/books/cloth-room/reservation-book.js';
import { servedGarment } from '../../../storage/books/cloth-room/served-garments.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { garmentSaid, lineServed, mustBeFree } from '../movements/take-out.js';
import { inWords } from '../stock-fields.js';

export type ReserveSaid = {
  readonly quantity: Decimal;
  readonly lot: string | undefined;
  readonly garment: string;
  readonly note: string;
  readonly evenIfPromised: boolean;
};

/**
 * Promises so much of a material to a garment.
 *
 * @throws Asked when it is promised to another garment already
 */
export const reserve = (
  unit: UnitOfWork,
  visit: Visit,
  materialId: string,
  said: ReserveSaid,
): Promise<Done<Promised>> =>
  unit.write(visit, async (writing) => {
    const material = await materialBook.one(writing, materialId);
    const garment = await garmentSaid(writing, said.garment);
    const lots = await lotBook.ofMaterial(writing, materialId);
    const lot = lots.find(({ id }) => id === said.lot);
    if (said.lot && !lot) throw Invalid.field('lot', 'This piece is of another material.');
    if (lot?.origin === 'custody')
      throw Invalid.field('lot', 'A client’s own cloth is promised to its owner already.');
    await mustBeFree(writing, material, said, 'Promise it twice?');
    const id = await reservationBook.add(writing, {
      materialId,
      lotId: said.lot,
      commissionId: garment.commissionId,
      garmentId: garment.id,
      lineId: await lineServed(writing, material, garment.id, lot),
      quantity: said.quantity,
      note: said.note,
    });
    const { locale } = (await studioBook.the(writing)).identity;
    writing.says(
      `Promised ${inWords(said.quantity, material.unit, locale)} of ${material.name} to the ${garment.name}`,
      `commission/${garment.commissionId}/garment/${garment.id}`,
    );
    return reservationBook.one(writing, id);
  });

/** Lets a promise go. */
export const release = (unit: UnitOfWork, visit: Visit, id: string): Promise<Done<Promised>> =>
  unit.write(visit, async (writing) => {
    const promise = await reservationBook.one(writing, id);
    const { name } = await materialBook.one(writing, promise.materialId);
    const garment = await servedGarment(writing, promise.garmentId);
    await reservationBook.remove(writing, id);
    writing.says(
      `Let go of the ${name} promised to the ${garment?.name ?? 'garment'}`,
      `material/${promise.materialId}`,
    );
    return promise;
  });
