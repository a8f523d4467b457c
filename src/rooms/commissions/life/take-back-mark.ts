import { type GarmentMark, STANDING_WORDS } from '../../../domain/commissions/garment-mark.js';
import { Conflict, NotFound } from '../../../domain/kernel/errors.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { garmentSubject } from '../open-commission.js';

/** What may be taken back from the job sheet; a reckoning is opened again where it was closed. */
export const MAY_TAKE_BACK = ['cut', 'delivered', 'collected', 'cancelled', 'aftercare', 'notice'] as const;
export type TakenBackKind = (typeof MAY_TAKE_BACK)[number];

/** What each mark says, in words. */
export const MARK_WORDS: Readonly<Record<TakenBackKind, string>> = {
  cut: 'cut',
  delivered: STANDING_WORDS.delivered,
  collected: 'collected',
  cancelled: 'cancelled',
  aftercare: 'aftercare',
  notice: 'notice written',
};

export const mayTakeBack = (kind: string): kind is TakenBackKind =>
  (MAY_TAKE_BACK as readonly string[]).includes(kind);

/**
 * Takes a mark back with its reason; both stay on record.
 *
 * @throws NotFound when it is another garment's; Conflict when it was taken back before, is no mark of this kind, or the
 *   garment is closed
 */
export const takeBackMark = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  markId: string,
  reason: string,
): Promise<Done<GarmentMark>> =>
  unit.write(visit, async (writing) => {
    const mark = await garmentMarkBook.one(writing, markId);
    if (mark.garmentId !== garmentId) throw new NotFound('mark on this garment');
    if (!mayTakeBack(mark.kind))
      throw new Conflict('This is taken back where it was put down, not here.', 'not-here');
    if ((await garmentMarkBook.standing(writing, garmentId)) === 'closed')
      throw new Conflict('This garment is closed. Open its reckoning again first.', 'garment-closed');
    const garment = await garmentBook.one(writing, garmentId);
    const back = await garmentMarkBook.takeBack(writing, markId, reason);
    writing.says(
      `Took back that the ${garment.name} was ${MARK_WORDS[mark.kind]}: ${reason}`,
      garmentSubject(garment),
    );
    return back;
  });
