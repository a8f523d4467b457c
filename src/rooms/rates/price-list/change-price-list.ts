import { Decimal } from '../../../domain/kernel/decimal.js';
import { Conflict } from '../../../domain/kernel/errors.js';
import { hoursOf } from '../../../domain/kernel/minutes.js';
import { startingBelief, typeLesson } from '../../../domain/lessons/type-lesson.js';
import type { PriceListLine } from '../../../domain/pricing/price-list-line.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { pastGarmentBook } from '../../../storage/books/past-garment-book.js';
import { type PriceListWords, priceListBook } from '../../../storage/books/price-list-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { lessonBook } from '../../../storage/lesson/lesson-book.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { capitalised, countInWords } from '../../../web/words/counts.js';

/** What people say about a line; where its hours came from is the studio's. */
export type LineSaid = Omit<PriceListWords, 'takenFrom' | 'fromStartingValues'>;

/** Lines that the alteration menu and the garment types offer and the list does not hold yet. */
export const offeredLines = async (reading: Reading): Promise<PriceListWords[]> => {
  const [types, operations, past, guesses, lines, { pricing }] = [
    await makingBook.types(reading),
    await makingBook.operations(reading),
    await pastGarmentBook.all(reading),
    await pastGarmentBook.guesses(reading),
    await priceListBook.all(reading),
    await studioBook.the(reading),
  ];
  const closed = await lessonBook.closed(reading);
  const held = new Set(lines.map(({ takenFrom }) => takenFrom));
  const menu = operations
    .filter((one) => one.isMenu)
    .map(
      (one): PriceListWords => ({
        sort: 'counter',
        name: one.name,
        hours: hoursOf(one.fixedMinutes.plus(one.minutesPerUnit)),
        trimmings: undefined,
        ownPrice: undefined,
        takenFrom: one.id,
        fromStartingValues: one.fromStartingValues,
      }),
    );
  const made = types.flatMap((type): PriceListWords[] => {
    if (type.isMenu) return [];
    const known = operations.filter(({ garmentType }) => garmentType === type.id);
    const belief = startingBelief(type, known, guesses.get(type.id)?.hours);
    const lesson = typeLesson(type, past, belief, closed);
    if (!lesson) return [];
    const hours = lesson.hours.nextAt(Number(pricing.certainty));
    return [
      {
        sort: 'make-and-trim',
        name: `${capitalised(type.name)}, your own cloth`,
        hours: new Decimal(hours).toDecimalPlaces(1),
        trimmings: undefined,
        ownPrice: undefined,
        takenFrom: type.id,
        fromStartingValues: lesson.garments === 0 && belief?.from === 'starting-value',
      },
    ];
  });
  return [...menu, ...made].filter(({ takenFrom }) => !held.has(takenFrom));
};

/** Takes over what is offered: all counter work, or all make-and-trim. One undo takes it back. */
export const takeOver = (
  unit: UnitOfWork,
  visit: Visit,
  sort: PriceListWords['sort'],
): Promise<Done<number>> =>
  unit.write(visit, async (writing) => {
    const lines = (await offeredLines(writing)).filter((line) => line.sort === sort);
    if (lines.length === 0)
      throw new Conflict('Every line offered stands in the list already.', 'nothing-new');
    for (const line of lines) await priceListBook.add(writing, line);
    writing.says(`Took ${countInWords(lines.length, 'line')} into the price list`, 'price-list');
    return lines.length;
  });

export const addLine = (unit: UnitOfWork, visit: Visit, said: LineSaid): Promise<Done<PriceListLine>> =>
  unit.write(visit, async (writing) => {
    const own = { takenFrom: undefined, fromStartingValues: false };
    const line = await priceListBook.add(writing, { ...said, ...own });
    writing.says(`Added “${line.name}” to the price list`, `price-list/${line.id}`);
    return line;
  });

/** @throws Stale when somebody corrected it meanwhile */
export const correctLine = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: LineSaid,
  seen?: number,
): Promise<Done<PriceListLine>> =>
  unit.write(visit, async (writing) => {
    const before = await priceListBook.one(writing, id);
    const fromStartingValues = before.fromStartingValues && before.hours.eq(said.hours);
    const words = { ...said, takenFrom: before.takenFrom, fromStartingValues };
    const line = await priceListBook.correct(writing, id, words, seen);
    writing.says(`Changed “${line.name}” in the price list`, `price-list/${id}`);
    return line;
  });

export const removeLine = (unit: UnitOfWork, visit: Visit, id: string, seen?: number): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    const { name } = await priceListBook.one(writing, id);
    await priceListBook.remove(writing, id, seen);
    writing.says(`Took “${name}” off the price list`, `price-list/${id}`);
  });
