import { Conflict, Invalid } from '../../../domain/kernel/errors.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { keepingBook } from '../../../storage/books/house/keeping-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import { eraseClient } from '../../../storage/holding/erase-client.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { whyNotErased } from './why-not-erased.js';

/** What is asked before somebody is erased: their number, typed again. */
export type ErasureSaid = { readonly number: string };

/**
 * Erases a client for good: nothing brings back what was held. The data file is written anew, so that the next backup holds
 * none of it either.
 *
 * @throws Invalid when the number is another; Conflict when work, things of theirs or money stand in the way
 */
export const eraseForGood = async (
  unit: UnitOfWork,
  clock: Clock,
  visit: Visit,
  clientId: string,
  { number }: ErasureSaid,
): Promise<Done<void>> => {
  const done = await unit.write(visit, async (writing) => {
    const { code } = await clientBook.one(writing, clientId);
    if (number.trim().toLowerCase() !== code.toLowerCase())
      throw new Invalid('This is another number.', [
        { field: 'number', text: `Write ${code}, the number of this client.` },
      ]);
    const [first] = await whyNotErased(writing, clientId);
    if (first) throw new Conflict(first.text, 'still-needed');
    await eraseClient(writing, clientId);
    const today = todayIn(clock, (await studioBook.the(writing)).identity.zone);
    await keepingBook.erased(writing, clientId, today);
    writing.says(`Erased what was held on client ${code}`, `client/${clientId}`);
  });
  await unit.overwriteFreed();
  return done;
};
