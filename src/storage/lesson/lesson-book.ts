import type { Lesson } from '../../domain/estimating/lesson/lesson.js';
import type { ClosedGarment } from '../../domain/lessons/closed-garment.js';
import { asClosed } from '../../domain/lessons/past-work.js';
import { pastWorkBook } from '../books/lessons/past-work-book.js';
import { studioBook } from '../books/studio-book.js';
import { keptIn, type Reading } from '../session.js';
import { LessonShelf } from './lesson-shelf.js';
import type { ProofSoFar } from './proof-shelf.js';
import type { TaughtGarment } from './taught-garments.js';

/** One shelf for each database: pages and writes have connections of their own to the same one. */
const shelves = new Map<string, LessonShelf>();

const homeOf = ({ manager }: Reading): string => {
  const options = manager.connection.options as { database?: unknown; url?: unknown };
  return String(options.url ?? options.database);
};

const shelfOf = (reading: Reading): LessonShelf => {
  const home = homeOf(reading);
  const shelf = shelves.get(home) ?? new LessonShelf();
  shelves.set(home, shelf);
  return shelf;
};

/** A word that changes with the lesson: for answers that rest on it and are kept. A fit is no write, so nothing else would tell. */
export const wordOfLesson = ({ garments, rows, effects }: Lesson): string =>
  `${garments} ${rows} ${effects[0]}`;

/** What past work says. */
export const lessonBook = {
  /** The last lesson that was fitted; the starting values where no garment was closed yet. */
  async present(reading: Reading): Promise<Lesson> {
    const { overruns } = await studioBook.the(reading);
    return shelfOf(reading).present(reading, overruns);
  },

  /** Waits until the lesson of this database rests on all that is closed. */
  async upToDate(reading: Reading): Promise<Lesson> {
    await this.present(reading);
    await shelfOf(reading).idle();
    return this.present(reading);
  },

  /** Closed garments, in the order they were closed in. */
  closed(reading: Reading): Promise<TaughtGarment[]> {
    return keptIn(reading, 'closed garments', () => shelfOf(reading).closed(reading));
  },

  /** Closed garments and past ones known by operation, oldest first: what operations and modes take. Mending and money rest on closed ones alone. */
  byOperation(reading: Reading): Promise<readonly ClosedGarment[]> {
    return keptIn(reading, 'garments by operation', async () => [
      ...(await pastWorkBook.garments(reading)).map(asClosed),
      ...(await this.closed(reading)),
    ]);
  },

  /** How often what was stated came true; worked out beside the requests, kept until another garment is closed. */
  async proof(reading: Reading): Promise<ProofSoFar> {
    const { overruns } = await studioBook.the(reading);
    return shelfOf(reading).proof(reading, overruns);
  },

  /** Waits until the proof rests on all that is closed. */
  async proofUpToDate(reading: Reading): Promise<ProofSoFar> {
    await this.proof(reading);
    await shelfOf(reading).proofIdle();
    return this.proof(reading);
  },

  /** Lets go of what is kept in memory of a database that is being closed. */
  async forget(reading: Reading): Promise<void> {
    await shelfOf(reading).idle();
    shelves.delete(homeOf(reading));
  },
};
