import type { Decimal } from '../../../domain/kernel/decimal.js';
import { Conflict, Invalid } from '../../../domain/kernel/errors.js';
import type { Lot } from '../../../domain/stock/lot.js';
import { type LotRemarks, lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { reservationBook } from '../../../storage/books/cloth-room/reservation-book.js';
import { stockBook } from '../../../storage/books/cloth-room/stock-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { inWords } from '../stock-fields.js';
import { cautionsOn } from './old-cautions.js';

type Because = { readonly reason: string; readonly on: string };

/** The book follows the tape. @throws Stale when something moved since the tape was read */
export const measureAgain = (
  unit: UnitOfWork,
  visit: Visit,
  lotId: string,
  { measured, ...said }: Because & { readonly measured: Decimal },
): Promise<Done<Lot>> =>
  unit.write(visit, async (writing) => {
    const lot = await lotBook.one(writing, lotId);
    const material = await materialBook.one(writing, lot.materialId);
    await stockBook.measureAgain(writing, lot, measured, { ...said, kind: 'measured-again' });
    const { locale } = (await studioBook.the(writing)).identity;
    const [was, is] = [lot.left, measured].map((much) => inWords(much, material.unit, locale));
    writing.says(`Measured ${lot.code} again: ${is}, not ${was}`, `lot/${lotId}`);
    return lotBook.one(writing, lotId);
  });

/** Back to the supplier, or to the client whose cloth it is. @throws Invalid with code `shortfall` */
export const sendAway = (
  unit: UnitOfWork,
  visit: Visit,
  lotId: string,
  { quantity, ...said }: Because & { readonly quantity: Decimal },
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const lot = await lotBook.one(writing, lotId);
    const material = await materialBook.one(writing, lot.materialId);
    if (lot.origin !== 'bought' && lot.origin !== 'custody')
      throw new Conflict('Only what was bought goes back to a supplier.', 'not-bought');
    const isTheirs = lot.origin === 'custody';
    const id = await stockBook.takeOut(writing, material, quantity, lotId, {
      ...said,
      kind: isTheirs ? 'handed-back' : 'sent-back',
      purchaseId: lot.purchaseId,
    });
    // A piece that is gone cannot be kept for anybody.
    if ((await lotBook.one(writing, lotId)).left.isZero()) await letGo(writing, lot);
    const { locale } = (await studioBook.the(writing)).identity;
    const much = `${inWords(quantity, material.unit, locale)} of ${material.name}`;
    writing.says(
      isTheirs ? `Handed ${much} back to the client` : `Sent ${much} back to the supplier`,
      `lot/${lotId}`,
    );
    return id;
  });

const letGo = async (writing: Writing, { id, materialId }: Lot): Promise<void> => {
  const promises = await reservationBook.ofMaterial(writing, materialId);
  for (const { id: promise } of promises.filter(({ lotId }) => lotId === id))
    await reservationBook.remove(writing, promise);
};

/** @throws Stale when something was said or moved meanwhile */
export const remarkOnLot = (
  unit: UnitOfWork,
  visit: Visit,
  lotId: string,
  said: Omit<LotRemarks, 'cautions'>,
  seen?: number,
): Promise<Done<Lot>> =>
  unit.write(visit, async (writing) => {
    const lot = await lotBook.one(writing, lotId);
    if (lot.origin === 'custody' && said.chargeAt !== 'nil')
      throw Invalid.field('chargeAt', 'A client’s own cloth is never charged.');
    const material = await materialBook.one(writing, lot.materialId);
    const cautions = await cautionsOn(material, said, lot.cautions);
    const after = await lotBook.remark(writing, lotId, { ...said, cautions }, seen);
    writing.says(`Corrected what is said about ${lot.code}`, `lot/${lotId}`);
    return after;
  });

/** Puts a caution away; it stays on the record with who did so. */
export const dismissCaution = (
  unit: UnitOfWork,
  visit: Visit,
  lotId: string,
  cautionId: string,
): Promise<Done<Lot>> =>
  unit.write(visit, async (writing) => {
    const lot = await lotBook.one(writing, lotId);
    const cautions = lot.cautions.map((one) =>
      one.id === cautionId && one.dismissedAt === undefined
        ? { ...one, dismissedAt: writing.at, dismissedBy: visit.who.name }
        : one,
    );
    writing.says(`Put a caution about ${lot.code} away; it stays on the record`, `lot/${lotId}`);
    return lotBook.remark(writing, lotId, { ...lot, cautions });
  });
