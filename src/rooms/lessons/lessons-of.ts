import type { PastGarment } from '../../domain/lessons/past-garment.js';
import { startingBelief, type TypeLesson, typeLesson } from '../../domain/lessons/type-lesson.js';
import { type KeptType, makingBook } from '../../storage/books/making-book.js';
import { pastGarmentBook } from '../../storage/books/past-garment-book.js';
import type { Reading } from '../../storage/session.js';

/** A type the studio makes, with what is known of its hours. */
export type KnownType = { readonly type: KeptType; readonly lesson: TypeLesson | undefined };

/** What is known of every type that is made to a plan; those with garments of our own first. */
export const lessonsOf = async (reading: Reading): Promise<KnownType[]> => {
  const [types, operations, past, guesses] = [
    await makingBook.types(reading),
    await makingBook.operations(reading),
    await pastGarmentBook.all(reading),
    await pastGarmentBook.guesses(reading),
  ];
  return types
    .filter(({ isMenu }) => !isMenu)
    .map((type) => {
      const known = operations.filter(({ garmentType }) => garmentType === type.id);
      const belief = startingBelief(type, known, guesses.get(type.id)?.hours);
      return { type, lesson: typeLesson(type, past, belief) };
    })
    .sort((a, b) => Number((b.lesson?.garments ?? 0) > 0) - Number((a.lesson?.garments ?? 0) > 0));
};

/** One type with its garments. @throws NotFound */
export const lessonOf = async (
  reading: Reading,
  typeId: string,
): Promise<KnownType & { readonly past: readonly PastGarment[]; readonly guessVersion: number }> => {
  const type = await makingBook.type(reading, typeId);
  const [operations, past, guess] = [
    await makingBook.operations(reading, typeId),
    await pastGarmentBook.ofType(reading, typeId),
    await pastGarmentBook.guessOf(reading, typeId),
  ];
  const belief = startingBelief(type, operations, guess?.hours);
  return { type, past, lesson: typeLesson(type, past, belief), guessVersion: guess?.version ?? 0 };
};
