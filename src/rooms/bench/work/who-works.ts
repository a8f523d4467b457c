import type { Person } from '../../../domain/bench/person.js';
import { Conflict, NotAllowed } from '../../../domain/kernel/errors.js';
import { personBook } from '../../../storage/books/bench/person-book.js';
import type { Reading, Writing } from '../../../storage/session.js';
import type { SignedIn } from '../../../web/visit.js';

/**
 * Whose minutes are written: one's own, or, by the owner, somebody else's.
 *
 * @throws NotAllowed where a maker would write for another; Conflict where the person has left
 */
export const personWorking = async (writing: Writing, personId?: string): Promise<Person> => {
  const mine = await personBook.mine(writing);
  const person = !personId || personId === mine.id ? mine : await personBook.one(writing, personId);
  if (person.id !== mine.id && mine.role !== 'owner')
    throw new NotAllowed('Only the owner writes down the time of another.');
  if (person.left) throw new Conflict(`${person.name} has left the workroom.`, 'person-left');
  return person;
};

/** Who looks, whose time is looked at, and who else there is; nobody before the first minute. */
export type Looking = {
  readonly mine: Person | undefined;
  readonly person: Person | undefined;
  /** Whom the owner may write for; fewer than two need no choice. */
  readonly others: readonly Person[];
};

/** Whose time this page shows. @throws NotFound; NotAllowed where it is not theirs to see */
export const personLooking = async (reading: Reading, visit: SignedIn, personId = ''): Promise<Looking> => {
  const all = await personBook.all(reading);
  const mine = all.find(({ accountId }) => accountId === visit.who.id);
  const isOwner = visit.role === 'owner';
  const person = personId && personId !== mine?.id ? await personBook.one(reading, personId) : mine;
  if (person && person.id !== mine?.id && !isOwner)
    throw new NotAllowed('Only the owner looks at the time of another.');
  return { mine, person, others: isOwner ? all.filter(({ left }) => !left) : [] };
};
