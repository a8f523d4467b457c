import type { Studio } from '../../domain/house/studio.js';
import { studioBook } from '../../storage/books/studio-book.js';
import type { Visit } from '../../storage/session.js';
import type { Done, UnitOfWork } from '../../storage/unit-of-work.js';
import { inCurrency } from './change-currency.js';

/**
 * Changes one subject of the house. Nothing that was issued changes with it.
 *
 * @param change the house with the subject changed
 * @throws Stale when somebody changed the house meanwhile; Conflict for a new currency once anything is priced
 */
export const changeHouse = (
  unit: UnitOfWork,
  visit: Visit,
  subject: string,
  change: (studio: Studio) => Studio,
  seen?: number,
): Promise<Done<Studio>> =>
  unit.write(visit, async (writing) => {
    const before = await studioBook.the(writing);
    const { currency } = change(before).identity;
    const changed = change(await inCurrency(writing, before, currency));
    const studio = await studioBook.correct(writing, { ...changed, version: seen ?? before.version });
    writing.says(`Changed the house: ${subject.toLowerCase()}`, 'house');
    return studio;
  });
