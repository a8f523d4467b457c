import type { Garment } from '../../../domain/commissions/garment.js';
import { Conflict, Invalid, NotFound } from '../../../domain/kernel/errors.js';
import type { Money } from '../../../domain/kernel/money.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { extraBook } from '../../../storage/books/bench/extra-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { listInWords } from '../../../web/words/counts.js';
import { commissionSubject, type GarmentSaid, garmentSubject } from '../open-commission.js';
import { personAdder } from '../typed-person.js';

/** A garment that belongs to the commission of the same address. @throws NotFound */
export const garmentIn = async (reading: Reading, commissionId: string, id: string): Promise<Garment> => {
  const garment = await garmentBook.one(reading, id);
  if (garment.commissionId !== commissionId) throw new NotFound('garment in this commission');
  return garment;
};

/**
 * Corrects a garment. Its plan stays as it is: another type or make proposes its own operations only when asked.
 *
 * @throws Stale when somebody corrected it meanwhile
 */
export const correctGarment = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  { wearer, ...said }: GarmentSaid,
  seen?: number,
): Promise<Done<Garment>> =>
  unit.write(visit, async (writing) => {
    const present = await garmentBook.one(writing, id);
    const types = await makingBook.types(writing);
    if (!types.some((type) => type.id === said.typeId))
      throw Invalid.field('type', 'There is no such garment type.');
    const wearerId = wearer ? await personAdder(writing)(wearer) : present.wearerId;
    const name = said.name || present.name;
    const garment = await garmentBook.correct(writing, { ...present, ...said, name, wearerId }, seen);
    writing.says(`Corrected the ${garment.name}`, garmentSubject(garment));
    return garment;
  });

/**
 * Why a garment cannot leave its commission any more: work, cloth or agreements rest on it. None while nothing does.
 *
 * Such a garment is cancelled instead, so that what it cost stays on record.
 */
export const whatStaysOf = async (reading: Reading, garment: Garment): Promise<string | undefined> => {
  const entries = await entryBook.ofCommission(reading, garment.commissionId);
  const stays = [
    ...((await benchBook.ofGarment(reading, garment.id)).length > 0 ? ['minutes at the bench'] : []),
    ...(entries.some(({ garmentId }) => garmentId === garment.id) ? ['cloth or trimmings'] : []),
    ...((await extraBook.ofGarment(reading, garment.id)).length > 0 ? ['extras'] : []),
    ...((await garmentMarkBook.ofGarment(reading, garment.id)).length > 0 ? ['what happened to it'] : []),
  ];
  return stays.length === 0
    ? undefined
    : `It cannot leave the commission: ${listInWords(stays)} ${stays.length === 1 && stays[0] === 'what happened to it' ? 'is' : 'are'} on record for it. Cancel it instead; what it cost stays on record.`;
};

/**
 * Takes a garment out with its plan, materials and expenses.
 *
 * @throws Conflict when it is the last of its commission, or work, cloth or agreements rest on it
 */
export const takeOutGarment = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  seen?: number,
): Promise<Done<Garment>> =>
  unit.write(visit, async (writing) => {
    const present = await garmentBook.one(writing, id);
    const stays = await whatStaysOf(writing, present);
    if (stays) throw new Conflict(stays, 'garment-has-record');
    const { length } = await garmentBook.ofCommission(writing, present.commissionId);
    if (length === 1)
      throw new Conflict('A commission holds at least one garment. Add the other one first.', 'last-garment');
    const garment = await garmentBook.remove(writing, id, seen);
    writing.says(`Took the ${garment.name} out of the commission`, commissionSubject(garment.commissionId));
    return garment;
  });

/** Sets the net price by hand, or lets the sum say it again. @throws Stale when the garment changed meanwhile */
export const setOwnPrice = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  ownPrice: Money | undefined,
  seen?: number,
): Promise<Done<Garment>> =>
  unit.write(visit, async (writing) => {
    const present = await garmentBook.one(writing, id);
    await garmentMarkBook.mustBeOpen(writing, id);
    const garment = await garmentBook.correct(writing, { ...present, ownPrice }, seen);
    writing.says(
      ownPrice
        ? `Set the price of the ${garment.name} by hand`
        : `Let the sum say the price of the ${garment.name}`,
      garmentSubject(garment),
    );
    return garment;
  });
