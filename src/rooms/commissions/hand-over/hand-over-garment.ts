import {
  type GarmentMark,
  garmentStanding,
  standingMarks,
} from '../../../domain/commissions/garment-mark.js';
import { checkHandOver, type HandOver } from '../../../domain/commissions/hand-over.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Conflict } from '../../../domain/kernel/errors.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { garmentSubject } from '../open-commission.js';

export type HandOverSaid = HandOver & { readonly on: CalendarDate; readonly words: string };

/**
 * Records that a garment was handed over, with what went with it.
 *
 * @throws Conflict when it was handed over before, or is closed or cancelled; Invalid when nobody received it
 */
export const handOverGarment = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  { on, words, ...said }: HandOverSaid,
): Promise<Done<GarmentMark>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    await garmentMarkBook.mustBeOpen(writing, garmentId);
    if (garmentStanding(await garmentMarkBook.ofGarment(writing, garmentId)) === 'delivered')
      throw new Conflict(
        'It was handed over already. Take that back first, with its reason.',
        'delivered-already',
      );
    writing.says(`Handed over the ${garment.name} to ${said.receivedBy}`, garmentSubject(garment));
    return garmentMarkBook.add(writing, {
      garmentId,
      commissionId: garment.commissionId,
      kind: 'delivered',
      operationId: undefined,
      on,
      words,
      document: JSON.stringify(checkHandOver(said)),
    });
  });

/** The hand-over that stands, with what went with it; none before it. */
export const handOverOf = async (
  reading: Reading,
  garmentId: string,
): Promise<{ mark: GarmentMark; said: HandOver } | undefined> => {
  const marks = standingMarks(await garmentMarkBook.ofGarment(reading, garmentId));
  const mark = marks.findLast(({ kind }) => kind === 'delivered');
  if (!mark) return undefined;
  const nothing: HandOver = { remnants: '', spares: '', care: '', receivedBy: '' };
  return { mark, said: mark.document === '' ? nothing : (JSON.parse(mark.document) as HandOver) };
};

/**
 * Adds a note of what was done or seen after a garment was handed over. It opens nothing again: minutes of aftercare go to a
 * small garment of their own, such as an alteration, so that what is closed stays as it was reckoned.
 *
 * @throws Conflict while the garment is still here
 */
export const noteAftercare = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  { on, words }: { readonly on: CalendarDate; readonly words: string },
): Promise<Done<GarmentMark>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    const standing = await garmentMarkBook.standing(writing, garmentId);
    if (standing !== 'delivered' && standing !== 'closed')
      throw new Conflict('Aftercare comes after a garment was handed over.', 'not-delivered');
    writing.says(`Noted aftercare of the ${garment.name}`, garmentSubject(garment));
    return garmentMarkBook.add(writing, {
      garmentId,
      commissionId: garment.commissionId,
      kind: 'aftercare',
      operationId: undefined,
      on,
      words,
      document: '',
    });
  });
