import { Invalid } from '../../../domain/kernel/errors.js';
import { type GarmentType, garmentType } from '../../../domain/making/garment-type.js';
import type { KnownOperation } from '../../../domain/making/known-operation.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import type { OperationSaid } from './operation.form.js';

/** Where a line came from, once the studio has touched it. */
const OURS = 'ours';

const slugOf = (name: string): string =>
  name
    .normalize('NFD')
    .toLowerCase()
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 50);

/** Adds a garment type of the studio's own, to be filled with operations. */
export const addType = (
  unit: UnitOfWork,
  visit: Visit,
  said: Pick<GarmentType, 'name' | 'plural'>,
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const types = await makingBook.types(writing);
    const taken = new Set([...types.map(({ id }) => id), 'new']);
    if (types.some(({ name }) => name.toLowerCase() === said.name.toLowerCase()))
      throw Invalid.field('name', 'The studio makes this already.');
    const slug = /^[a-z]/.test(slugOf(said.name)) ? slugOf(said.name) : 'garment';
    let id = slug;
    for (let more = 2; taken.has(id); more += 1) id = `${slug}-${more}`;
    await makingBook.addType(writing, garmentType({ id, ...said, isMenu: false, measuringList: [] }));
    writing.says(`Added the garment type ${said.name}`, `making/${id}`);
    return id;
  });

/** Changes a type's name or measuring list. @throws Stale, Invalid for a dimension nobody knows */
export const changeType = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: Partial<Pick<GarmentType, 'name' | 'plural' | 'measuringList'>>,
  seen?: number,
): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    const { version: _, ...type } = await makingBook.type(writing, id);
    if (said.measuringList) {
      const known = new Set((await dimensionBook.all(writing)).map((one) => one.id));
      const stray = said.measuringList.find((one) => !known.has(one));
      if (stray) throw Invalid.field('measuringList', `Nobody knows a measurement “${stray.slice(0, 60)}”.`);
    }
    await makingBook.changeType(writing, garmentType({ ...type, ...said }), seen);
    const what = said.measuringList
      ? `Changed what is measured for ${type.plural}`
      : `Renamed ${type.plural}`;
    writing.says(what, `making/${id}`);
  });

/** Adds an operation of the studio's own at the end of a type's list. */
export const addOperation = (
  unit: UnitOfWork,
  visit: Visit,
  typeId: string,
  said: OperationSaid,
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const type = await makingBook.type(writing, typeId);
    const others = await makingBook.operations(writing, typeId);
    const known: KnownOperation = {
      ...said,
      garmentType: typeId,
      no: Math.max(0, ...others.map(({ no }) => no)) + 1,
      kind: `own-${slugOf(said.name) || writing.newId()}`,
      needsMinutes: false,
      insteadOf: [],
      makes: [],
      isMenu: type.isMenu,
      fromStartingValues: false,
      source: OURS,
    };
    const id = await makingBook.addOperation(writing, known);
    writing.says(`Added “${said.name}” to ${type.plural}`, `making/${typeId}`);
    return id;
  });

/** Changes an operation; from then on it is the studio's own value. @throws Stale when somebody changed it meanwhile */
export const changeOperation = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: OperationSaid,
  seen?: number,
): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    const { id: _id, version: _version, ...before } = await makingBook.operation(writing, id);
    const ours = { fromStartingValues: false, needsMinutes: false, source: OURS };
    await makingBook.changeOperation(writing, id, { ...before, ...said, ...ours }, seen);
    writing.says(`Changed “${said.name}”`, `making/${before.garmentType}`);
  });

export const removeOperation = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  seen?: number,
): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    const known = await makingBook.operation(writing, id);
    await makingBook.removeOperation(writing, id, seen);
    writing.says(`Took “${known.name}” off the list`, `making/${known.garmentType}`);
  });
