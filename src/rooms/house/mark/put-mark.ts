import { type KeptMark, markBook } from '../../../storage/books/house/mark-book.js';
import { readMark } from '../../../storage/pictures/read-mark.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';

/**
 * Puts a mark on the letterhead, or another in its place. Papers that went out keep theirs.
 *
 * @param bytes the picture as it was sent; none to say only what it shows
 * @throws Invalid naming the field `mark` or `alternative`; Stale when another was put there meanwhile
 */
export const putMark = async (
  unit: UnitOfWork,
  visit: Visit,
  said: { readonly alternative: string },
  bytes: Uint8Array,
  seen?: number,
): Promise<Done<KeptMark>> => {
  const picture = bytes.length > 0 ? await readMark(bytes) : undefined;
  return unit.write(visit, async (writing) => {
    const present = await markBook.maybe(writing);
    // Nothing sent and nothing there: the reading refuses it in words.
    const { kind, bytes: kept } = picture ?? present ?? (await readMark(bytes));
    const mark = await markBook.put(writing, { kind, bytes: kept, alternative: said.alternative }, seen);
    writing.says(picture ? 'Put a mark on the letterhead' : 'Said what the mark shows', 'house');
    return mark;
  });
};

/** @throws NotFound when there is none; Stale when another was put there meanwhile */
export const takeOffMark = (unit: UnitOfWork, visit: Visit, seen?: number): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    await markBook.takeOff(writing, seen);
    writing.says('Took the mark off the letterhead', 'house');
  });
