import type { ExtraLine, ExtraWork } from '../../../domain/commissions/extra.js';
import type { ExpenseLine, MaterialLine, PlannedGarment } from '../../../domain/commissions/garment.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { operationFrom } from '../../../domain/making/known-operation.js';
import type { Mode, Stage } from '../../../domain/making/mode.js';
import { type Operation, withOwnMinutes } from '../../../domain/making/operation.js';
import { type NewSpecLine } from '../../../domain/making/spec-line.js';
import type { Reading } from '../../../storage/session.js';
import { fieldAnswer } from '../../../web/words/reading.js';
import type { ExpenseSaid, MaterialSaid } from '../materials/material.form.js';
import { kindOf, readLine } from '../plan/add-line.js';
import { readMinutesEach } from '../plan/minutes-each.js';

/** One line of work as it was typed, such as `inside pocket 2`; the minutes may be left out where they are known. */
export type LineSaid = {
  /** The fields it came from, to say trouble beside. */
  readonly at: { readonly line: string; readonly minutes: string };
  readonly line: string;
  readonly minutes: string;
  readonly stage: Stage;
  readonly mode: Mode;
};

/** What an extra puts in and takes out, as it was said. */
export type WorkSaid = {
  readonly lines: readonly LineSaid[];
  readonly materials: readonly MaterialSaid[];
  readonly expenses: readonly ExpenseSaid[];
  /** Keys of lines of the plan, materials and expenses. */
  readonly out: readonly string[];
};

/** Is anything said at all? */
export const saysNothing = ({ lines, materials, expenses, out }: WorkSaid): boolean =>
  lines.length + materials.length + expenses.length + out.length === 0;

/**
 * The work of an extra out of what was said.
 *
 * @param newId gives each line its key, under which it will stand in the plan
 * @throws Invalid beside the fields: what cannot be meant, what has no minutes, what is not there to be taken out
 */
export const readExtraWork = async (
  reading: Reading,
  planned: PlannedGarment,
  said: WorkSaid,
  newId: () => string,
): Promise<ExtraWork> => {
  const added: Operation[] = [];
  for (const line of said.lines) added.push(await operationOf(reading, planned, line, newId()));
  const out = new Set(said.out);
  const { plan, materials, expenses } = planned;
  const there = new Set([...plan, ...materials, ...expenses].map(({ id }) => id));
  if (said.out.some((id) => !there.has(id)))
    throw Invalid.field('out.0', 'This line is no longer in the plan. Choose again.');
  return {
    operations: [...put(added), ...takenFrom(plan.map(bare), out)],
    materials: [
      ...put(said.materials.map((one): MaterialLine => ({ ...one, id: newId(), version: 1 }))),
      ...takenFrom(materials, out),
    ],
    expenses: [
      ...put(said.expenses.map((one): ExpenseLine => ({ ...one, id: newId(), version: 1 }))),
      ...takenFrom(expenses, out),
    ],
  };
};

const put = <Line>(lines: readonly Line[]): ExtraLine<Line>[] => lines.map((line) => ({ sign: 1, line }));

const takenFrom = <Line extends { readonly id: string }>(
  lines: readonly Line[],
  out: ReadonlySet<string>,
): ExtraLine<Line>[] => lines.filter(({ id }) => out.has(id)).map((line) => ({ sign: -1, line }));

/** A line of the plan without the version it is kept under. */
const bare = (one: Operation): Operation => {
  const { version: _, ...operation } = one as Operation & { version?: number };
  return operation;
};

const operationOf = async (
  reading: Reading,
  { garment }: PlannedGarment,
  said: LineSaid,
  id: string,
): Promise<Operation> => {
  const read = await readLine(reading, garment, said.line);
  if (read.kind === 'new') return newOperation(read, said, id);
  if (read.kind !== 'ok') {
    const { trouble } = fieldAnswer(said.at.line, read, 'What is to be done? Write a few words.');
    const instead = (trouble?.choices ?? []).map(({ typed }) => `“${typed}”`).join(' or ');
    throw Invalid.field(said.at.line, `${trouble?.text ?? ''}${instead ? ` Write ${instead}.` : ''}`);
  }
  const known = operationFrom(read.value.known, id, read.value.quantity);
  const minutes = minutesOf(
    said,
    known.needsMinutes ? `How many minutes does “${known.name}” take?` : undefined,
  );
  return minutes === undefined ? known : withOwnMinutes(known, minutes);
};

const minutesOf = ({ at, minutes }: LineSaid, missing: string | undefined): Decimal | undefined => {
  const { value, trouble } = fieldAnswer(at.minutes, readMinutesEach(minutes), missing);
  if (trouble) throw Invalid.field(trouble.field, trouble.text);
  return value;
};

const newOperation = (read: NewSpecLine, said: LineSaid, id: string): Operation => {
  const minutes = minutesOf(said, read.sentence) ?? new Decimal(0);
  const once = read.driver === 'once';
  return {
    id,
    kind: kindOf(read.name),
    name: read.name,
    stage: said.stage,
    mode: said.mode,
    modeShares: [],
    basting: said.stage === 'baste',
    driver: read.driver,
    quantity: read.quantity ?? new Decimal(1),
    fixedMinutes: once ? minutes : new Decimal(0),
    minutesPerUnit: once ? new Decimal(0) : minutes,
    needsMinutes: false,
    fromStartingValues: false,
    shownToClient: false,
    clientWording: '',
  };
};

/** What the client may read, from the lines: what comes in, then what it takes the place of. */
export const wordingOf = ({ operations, materials, expenses }: ExtraWork): string => {
  const names = (sign: 1 | -1): string[] =>
    [...operations, ...materials, ...expenses]
      .filter((one) => one.sign === sign)
      .map(({ line }) => {
        const shown = line.shownToClient && line.clientWording ? line.clientWording : line.name;
        const many = 'driver' in line && line.driver === 'each' && !line.quantity.eq(1);
        return many ? `${shown}, ${line.quantity.toFixed()}` : shown;
      });
  const [added, out] = [names(1), names(-1)];
  const words =
    out.length === 0
      ? added.join('; ')
      : added.length === 0
        ? `Without ${out.join('; ')}`
        : `${added.join('; ')} in place of ${out.join('; ')}`;
  return words.slice(0, 400);
};
