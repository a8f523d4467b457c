import { drift } from '../../domain/estimating/proof/drift.js';
import { type ModeLesson, modeLessons } from '../../domain/lessons/by-operation.js';
import { type HandPace, handPaces } from '../../domain/lessons/hand-paces.js';
import { type Mending, mendingShare } from '../../domain/lessons/mending-share.js';
import type { PastGarment } from '../../domain/lessons/past-garment.js';
import { startingBelief, type TypeLesson, typeLesson } from '../../domain/lessons/type-lesson.js';
import { pastWorkBook } from '../../storage/books/lessons/past-work-book.js';
import { type KeptType, makingBook } from '../../storage/books/making-book.js';
import { pastGarmentBook } from '../../storage/books/past-garment-book.js';
import { lessonBook } from '../../storage/lesson/lesson-book.js';
import { keptIn, type Reading } from '../../storage/session.js';

/** A type the studio makes, with what is known of its hours. */
export type KnownType = { readonly type: KeptType; readonly lesson: TypeLesson | undefined };

/** What is known of every type that is made to a plan; those with garments of our own first. */
export const lessonsOf = (reading: Reading): Promise<KnownType[]> =>
  keptIn(reading, 'lessons of every type', async () => {
    const [types, operations, past, guesses, closed] = [
      await makingBook.types(reading),
      await makingBook.operations(reading),
      await pastGarmentBook.all(reading),
      await pastGarmentBook.guesses(reading),
      await lessonBook.closed(reading),
    ];
    return types
      .filter(({ isMenu }) => !isMenu)
      .map((type) => {
        const known = operations.filter(({ garmentType }) => garmentType === type.id);
        const belief = startingBelief(type, known, guesses.get(type.id)?.hours);
        return { type, lesson: typeLesson(type, past, belief, closed) };
      })
      .sort((a, b) => Number((b.lesson?.garments ?? 0) > 0) - Number((a.lesson?.garments ?? 0) > 0));
  });

/** What all closed garments of the studio say together. */
export type StudioLesson = {
  readonly closed: number;
  /** Brought in by operation. */
  readonly fromList: number;
  readonly modes: readonly ModeLesson[];
  readonly mending: Mending;
  readonly paces: readonly HandPace[];
  readonly drift: ReturnType<typeof drift>;
};

export const studioLesson = async (reading: Reading): Promise<StudioLesson> => {
  const { proof } = await lessonBook.proof(reading);
  // The proof is worked out beside the writes, so nothing else would tell that it has changed.
  const word = `${proof?.trail.length ?? 0} ${proof?.trail.at(-1)?.z ?? ''}`;
  return keptIn(reading, `lesson of the studio by ${word}`, async () => {
    const closed = await lessonBook.closed(reading);
    return {
      closed: closed.length,
      fromList: (await pastWorkBook.garments(reading)).length,
      modes: modeLessons(await lessonBook.byOperation(reading)),
      mending: mendingShare(closed),
      paces: handPaces(closed),
      drift: drift(proof?.trail.map(({ z }) => z) ?? []),
    };
  });
};

/** One type with its notebook. @throws NotFound */
export const lessonOf = async (
  reading: Reading,
  typeId: string,
): Promise<KnownType & { readonly past: readonly PastGarment[]; readonly guessVersion: number }> => {
  const type = await makingBook.type(reading, typeId);
  const [operations, past, guess, closed] = [
    await makingBook.operations(reading, typeId),
    await pastGarmentBook.ofType(reading, typeId),
    await pastGarmentBook.guessOf(reading, typeId),
    await lessonBook.closed(reading),
  ];
  const belief = startingBelief(type, operations, guess?.hours);
  return { type, past, lesson: typeLesson(type, past, belief, closed), guessVersion: guess?.version ?? 0 };
};
