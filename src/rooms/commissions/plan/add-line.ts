import { foldForSearch } from '../../../domain/clients/client.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { type FieldTrouble, Invalid } from '../../../domain/kernel/errors.js';
import { kindOf } from '../../../domain/making/kind-of.js';
import { type KnownOperation, operationFrom } from '../../../domain/making/known-operation.js';
import { addOperation, type MakingPlan } from '../../../domain/making/making-plan.js';
import { isMode, isStage } from '../../../domain/making/mode.js';
import type { Operation } from '../../../domain/making/operation.js';
import { type NewSpecLine, readSpecLine } from '../../../domain/making/spec-line.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import type { Typed } from '../../../web/forms/typed.js';
import { fieldAnswer } from '../../../web/words/reading.js';
import { putPlan } from './change-plan.js';
import { readMinutesEach } from './minutes-each.js';

export { kindOf };

export type LineRead = ReturnType<typeof readSpecLine>;

/** Reads a line added by typing against what the studio knows. `isNew` when somebody said that it is none of those. */
export const readLine = async (
  reading: Reading,
  garment: Pick<Garment, 'typeId'>,
  line: string,
  isNew = false,
): Promise<LineRead> => {
  if (isNew) return readSpecLine(line, []);
  const known = await makingBook.operations(reading);
  return readSpecLine(
    line,
    known.filter(({ garmentType }) => garmentType === garment.typeId),
    known.filter(({ garmentType }) => garmentType !== garment.typeId),
  );
};

const ownOperation = (said: NewSpecLine, typed: Typed, id: string): Operation => {
  const { value, trouble } = fieldAnswer('minutes', readMinutesEach(typed.minutes ?? ''), said.sentence);
  const [stage, mode] = [typed.stage ?? '', typed.mode ?? ''];
  const troubles: FieldTrouble[] = [
    ...(trouble ? [{ field: 'minutes', text: trouble.text }] : []),
    ...(isStage(stage) ? [] : [{ field: 'stage', text: 'In which stage is it done?' }]),
    ...(isMode(mode) ? [] : [{ field: 'mode', text: 'How are the minutes spent?' }]),
  ];
  if (troubles.length > 0 || value === undefined || !isStage(stage) || !isMode(mode))
    throw new Invalid(troubles.length === 1 ? troubles[0]!.text : said.sentence, troubles);
  const nought = new Decimal(0);
  const once = said.driver === 'once';
  return {
    id,
    kind: kindOf(said.name),
    name: said.name,
    stage,
    mode,
    modeShares: [],
    basting: stage === 'baste',
    driver: said.driver,
    quantity: said.quantity ?? new Decimal(1),
    fixedMinutes: once ? value : nought,
    minutesPerUnit: once ? nought : value,
    needsMinutes: false,
    fromStartingValues: false,
    shownToClient: false,
    clientWording: '',
  };
};

/** Remembered for the next time it is typed; it never comes into a plan by itself. */
const asKnown = (one: Operation, garmentType: string, no: number): KnownOperation => ({
  garmentType,
  no,
  kind: one.kind,
  name: one.name,
  stage: one.stage,
  mode: one.mode,
  driver: one.driver,
  typicalCount: new Decimal(1),
  fixedMinutes: one.fixedMinutes,
  minutesPerUnit: one.minutesPerUnit,
  needsMinutes: false,
  basting: one.basting,
  isAlternative: true,
  insteadOf: [],
  makes: [],
  isMenu: false,
  fromStartingValues: false,
  source: 'our own',
});

/**
 * Adds a line to a plan by its words, such as `inside pocket 2`.
 *
 * @throws Invalid where it cannot be meant, where several are meant, or where something new lacks minutes, stage or mode
 */
export const addLine = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  typed: Typed,
): Promise<Done<MakingPlan>> =>
  putPlan(unit, visit, garmentId, async (writing, present) => {
    const garment = await garmentBook.one(writing, garmentId);
    const read = await readLine(writing, garment, typed.line ?? '', typed.isNew === 'yes');
    if (read.kind === 'empty') throw Invalid.field('line', 'What is to be done? Write a few words.');
    if (read.kind === 'ask' || read.kind === 'refuse') throw Invalid.field('line', read.sentence);
    const id = writing.newId();
    const added =
      read.kind === 'new'
        ? ownOperation(read, typed, id)
        : operationFrom(read.value.known, id, read.value.quantity);
    const plan = addOperation(present, added);
    if (read.kind === 'new') {
      const known = await makingBook.operations(writing, garment.typeId);
      const isKnown = known.some(({ name }) => foldForSearch(name) === foldForSearch(added.name));
      const no = Math.max(0, ...known.map((one) => one.no)) + 1;
      if (!isKnown) await makingBook.addOperation(writing, asKnown(added, garment.typeId, no));
    }
    return { plan, says: `Added “${added.name}” to the plan of the ${garment.name}` };
  });
