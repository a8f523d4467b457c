import type { Decimal } from '../../domain/kernel/decimal.js';
import { type FieldTrouble, Invalid, Stale } from '../../domain/kernel/errors.js';
import type { PastGarment } from '../../domain/lessons/past-garment.js';
import { pastWorkBook } from '../../storage/books/lessons/past-work-book.js';
import { makingBook } from '../../storage/books/making-book.js';
import { type PastGarmentWords, pastGarmentBook } from '../../storage/books/past-garment-book.js';
import type { Reading, Visit } from '../../storage/session.js';
import type { Done, UnitOfWork } from '../../storage/unit-of-work.js';
import { countInWords } from '../../web/words/counts.js';

const mustBeTypes = async (
  reading: Reading,
  garments: readonly PastGarmentWords[],
  field: (place: number) => string,
): Promise<void> => {
  const known = new Set((await makingBook.types(reading)).filter((type) => !type.isMenu).map(({ id }) => id));
  const troubles = garments.flatMap(({ typeId }, place): FieldTrouble[] =>
    known.has(typeId)
      ? []
      : [{ field: field(place), text: 'Choose a garment type the studio makes to a plan.' }],
  );
  if (troubles[0]) throw new Invalid(troubles[0].text, troubles);
};

/** Keeps totals out of a notebook, all of them or none; one undo takes them all back. */
export const writeDown = (
  unit: UnitOfWork,
  visit: Visit,
  garments: readonly PastGarmentWords[],
  field: (place: number) => string,
): Promise<Done<PastGarment[]>> =>
  unit.write(visit, async (writing) => {
    await mustBeTypes(writing, garments, field);
    const kept: PastGarment[] = [];
    for (const words of garments) kept.push(await pastGarmentBook.add(writing, words));
    writing.says(`Wrote down ${countInWords(kept.length, 'past garment')}`, 'lessons/totals');
    return kept;
  });

/** @throws Stale when somebody corrected it meanwhile */
export const correctTotal = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  words: PastGarmentWords,
  seen?: number,
): Promise<Done<PastGarment>> =>
  unit.write(visit, async (writing) => {
    await mustBeTypes(writing, [words], () => 'type');
    const present = await pastGarmentBook.one(writing, id);
    const sameTime =
      present.hours.eq(words.hours) &&
      (present.plannedHours?.toFixed() ?? '') === (words.plannedHours?.toFixed() ?? '');
    if (!sameTime && (await pastWorkBook.all(writing)).has(id))
      throw Invalid.field(
        'hours',
        'This garment is known by operation, and its hours are their sum. To change them, take it off the list and bring it in anew.',
      );
    const kept = await pastGarmentBook.correct(writing, id, words, seen);
    writing.says('Corrected a past garment', `lessons/totals/${id}`);
    return kept;
  });

export const removeTotal = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  seen?: number,
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const { typeId } = await pastGarmentBook.one(writing, id);
    await pastWorkBook.removeOf(writing, id);
    await pastGarmentBook.remove(writing, id, seen);
    writing.says('Took a past garment off the list', `lessons/totals/${id}`);
    return typeId;
  });

/**
 * Says, changes or takes back the maker's own guess of a type.
 *
 * @param seen the guess's version; 0 where there was none
 * @throws Stale when somebody said another guess meanwhile
 */
export const guessHours = (
  unit: UnitOfWork,
  visit: Visit,
  typeId: string,
  hours: Decimal | undefined,
  seen?: number,
): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    const type = await makingBook.type(writing, typeId);
    await mustBeTypes(writing, [{ typeId } as PastGarmentWords], () => 'hours');
    const present = await pastGarmentBook.guessOf(writing, typeId);
    if (seen !== undefined && seen !== (present?.version ?? 0))
      throw new Stale({ version: present?.version ?? 0, hours: present?.hours.toFixed() ?? '' });
    await pastGarmentBook.guess(writing, typeId, hours);
    writing.says(
      hours ? `Guessed what a ${type.name} takes` : `Took back the guess of what a ${type.name} takes`,
      `lessons/${typeId}`,
    );
  });
