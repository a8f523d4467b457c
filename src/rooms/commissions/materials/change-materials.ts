import type { Garment } from '../../../domain/commissions/garment.js';
import { Invalid, NotFound } from '../../../domain/kernel/errors.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { estimateBook } from '../../../storage/books/estimate-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { garmentSubject } from '../open-commission.js';
import type { ExpenseSaid, MaterialSaid } from './material.form.js';

/** The most materials, or expenses, one garment may list. */
const MOST_LINES = 200;

const about = async <T>(
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  act: (writing: Writing, garment: Garment) => Promise<{ value: T; says: string }>,
): Promise<Done<T>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    await garmentMarkBook.mustBeOpen(writing, garmentId);
    const { value, says } = await act(writing, garment);
    writing.says(says, garmentSubject(garment));
    return value;
  });

const mustHaveRoom = (lines: readonly unknown[]): void => {
  if (lines.length >= MOST_LINES) throw new Invalid(`A garment lists at most ${MOST_LINES} of these.`);
};

/** Is this line one of the garment's? @throws NotFound when it is another's, or gone */
const mustBeThere = <T extends { readonly id: string }>(lines: readonly T[], id: string, what: string): T => {
  const line = lines.find((one) => one.id === id);
  if (!line) throw new NotFound(what);
  return line;
};

export const materialOf = async (reading: Pick<Writing, 'manager'>, garmentId: string, id: string) =>
  mustBeThere(await estimateBook.materialsOf(reading, garmentId), id, 'material here');

export const expenseOf = async (reading: Pick<Writing, 'manager'>, garmentId: string, id: string) =>
  mustBeThere(await estimateBook.expensesOf(reading, garmentId), id, 'expense here');

export const addMaterial = (unit: UnitOfWork, visit: Visit, garmentId: string, said: MaterialSaid) =>
  about(unit, visit, garmentId, async (writing, garment) => {
    mustHaveRoom(await estimateBook.materialsOf(writing, garmentId));
    const value = await estimateBook.addMaterial(writing, garmentId, said);
    return { value, says: `Added ${said.name} to the ${garment.name}` };
  });

/** @throws Stale when somebody changed it meanwhile */
export const changeMaterial = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  id: string,
  said: MaterialSaid,
  seen?: number,
) =>
  about(unit, visit, garmentId, async (writing, garment) => {
    await materialOf(writing, garmentId, id);
    await estimateBook.changeMaterial(writing, id, said, seen);
    return { value: id, says: `Changed ${said.name} of the ${garment.name}` };
  });

export const takeOutMaterial = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  id: string,
  seen?: number,
) =>
  about(unit, visit, garmentId, async (writing, garment) => {
    await materialOf(writing, garmentId, id);
    const value = await estimateBook.removeMaterial(writing, id, seen);
    return { value, says: `Took ${value} out of the ${garment.name}` };
  });

export const addExpense = (unit: UnitOfWork, visit: Visit, garmentId: string, said: ExpenseSaid) =>
  about(unit, visit, garmentId, async (writing, garment) => {
    mustHaveRoom(await estimateBook.expensesOf(writing, garmentId));
    const value = await estimateBook.addExpense(writing, garmentId, said);
    return { value, says: `Added the expense ${said.name} to the ${garment.name}` };
  });

/** @throws Stale when somebody changed it meanwhile */
export const changeExpense = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  id: string,
  said: ExpenseSaid,
  seen?: number,
) =>
  about(unit, visit, garmentId, async (writing, garment) => {
    await expenseOf(writing, garmentId, id);
    await estimateBook.changeExpense(writing, id, said, seen);
    return { value: id, says: `Changed the expense ${said.name} of the ${garment.name}` };
  });

export const takeOutExpense = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  id: string,
  seen?: number,
) =>
  about(unit, visit, garmentId, async (writing, garment) => {
    await expenseOf(writing, garmentId, id);
    const value = await estimateBook.removeExpense(writing, id, seen);
    return { value, says: `Took the expense ${value} out of the ${garment.name}` };
  });
