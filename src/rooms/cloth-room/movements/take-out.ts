import { foldForSearch } from '../../../domain/clients/client.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import type { Lot } from '../../../domain/stock/lot.js';
import type { Material } from '../../../domain/stock/material.js';
import { openPromises, promisedTwice } from '../../../domain/stock/promised.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { reservationBook } from '../../../storage/books/cloth-room/reservation-book.js';
import { type ServedGarment, servedGarment } from '../../../storage/books/cloth-room/served-garments.js';
import { stockBook } from '../../../storage/books/cloth-room/stock-book.js';
import { estimateBook } from '../../../storage/books/estimate-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { Asked } from '../../../web/forms/form.js';
import { inWords } from '../stock-fields.js';
import type { TakeSaid } from './movement.form.js';

/** The garment, which must be there and still open. @throws Invalid; Conflict where it is closed or cancelled */
export const garmentSaid = async (reading: Reading, id: string): Promise<ServedGarment> => {
  const garment = await servedGarment(reading, id);
  if (!garment) throw Invalid.field('garment', 'There is no such garment any more.');
  await garmentMarkBook.mustBeOpen(reading, id);
  return garment;
};

/** A client's own cloth goes into that client's own garments, and nowhere else. */
const mustBeTheirs = (lot: Lot | undefined, garment: ServedGarment | undefined): void => {
  if (lot?.origin !== 'custody' || !garment) return;
  if (![garment.clientId, garment.wearerId, garment.payerId].includes(lot.ownerId ?? ''))
    throw Invalid.field('lot', 'This is a client’s own cloth: it is cut for nobody else and never sold.');
};

/** The planned line a material serves in a garment: the one promised or bought for it, else the one of its name. */
export const lineServed = async (
  reading: Reading,
  material: Material,
  garmentId: string,
  lot: Lot | undefined,
): Promise<string | undefined> => {
  const lines = await estimateBook.materialsOf(reading, garmentId);
  const promises = await reservationBook.ofMaterial(reading, material.id);
  const promised = promises.find((one) => one.garmentId === garmentId && one.lineId)?.lineId;
  const named = lines.find(({ name }) => foldForSearch(name) === foldForSearch(material.name));
  return [lot?.lineId, promised, named?.id].find((id) => id && lines.some((line) => line.id === id));
};

/** @throws Asked when it was promised to somebody else */
export const mustBeFree = async (
  reading: Reading,
  material: Material,
  {
    quantity,
    lot,
    garment,
    evenIfPromised,
  }: Pick<TakeSaid, 'quantity' | 'lot' | 'garment' | 'evenIfPromised'>,
  ask: string,
): Promise<void> => {
  if (evenIfPromised) return;
  const lots = (await lotBook.ofMaterial(reading, material.id)).filter(({ origin }) => origin !== 'custody');
  if (lot && !lots.some(({ id }) => id === lot)) return;
  const open = openPromises(
    await reservationBook.ofMaterial(reading, material.id),
    await reservationBook.movementsOf(reading, material.id),
  );
  const twice = promisedTwice(lots, open, garment, quantity, lot);
  if (!twice) return;
  const { locale } = (await studioBook.the(reading)).identity;
  const said = await Promise.all(
    twice.others.slice(0, 3).map(async ({ garmentId, open: still }) => {
      const other = await servedGarment(reading, garmentId);
      return `${inWords(still, material.unit, locale)} to ${other ? `${other.commissionNumber} no. ${other.place}, ${other.name}` : 'a garment that is gone'}`;
    }),
  );
  throw new Asked([
    {
      field: 'quantity',
      text: `Only ${inWords(twice.free, material.unit, locale)} are free: ${said.join(', ')} are promised. ${ask}`,
      confirmName: 'evenIfPromised',
    },
  ]);
};

/**
 * Takes something off the shelf for a garment, or as waste.
 *
 * @throws Invalid with code `shortfall` when there is less; Asked when it is promised to another garment
 */
export const takeOut = (
  unit: UnitOfWork,
  visit: Visit,
  materialId: string,
  said: TakeSaid,
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const material = await materialBook.one(writing, materialId);
    const garment = said.garment ? await garmentSaid(writing, said.garment) : undefined;
    const lots = await lotBook.ofMaterial(writing, materialId);
    const lot = lots.find(({ id }) => id === said.lot);
    mustBeTheirs(lot, garment);
    await mustBeFree(writing, material, said, 'Take it all the same?');
    const id = await stockBook.takeOut(writing, material, said.quantity, said.lot, {
      kind: said.kind,
      on: said.on,
      reason: said.reason,
      commissionId: garment?.commissionId,
      garmentId: garment?.id,
      garmentName: garment?.name ?? '',
      lineId: garment ? await lineServed(writing, material, garment.id, lot) : undefined,
    });
    const { locale } = (await studioBook.the(writing)).identity;
    const much = `${inWords(said.quantity, material.unit, locale)} of ${material.name}`;
    const what = said.kind === 'issue' ? `Issued ${much}` : `Put down ${much} as wasted`;
    writing.says(
      garment ? `${what} for the ${garment.name}` : what,
      garment ? `commission/${garment.commissionId}/garment/${garment.id}` : `material/${materialId}`,
    );
    return id;
  });
