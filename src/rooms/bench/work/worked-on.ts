import type { AwayKind } from '../../../domain/bench/bench-entry.js';
import { extraOfLine } from '../../../domain/commissions/agreed-plan.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import { causeRule } from '../../../domain/costing/cause-rules.js';
import type { Cause } from '../../../domain/costing/causes.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { Invalid, NotAllowed, NotFound } from '../../../domain/kernel/errors.js';
import { kindOf } from '../../../domain/making/kind-of.js';
import type { Mode, Stage } from '../../../domain/making/mode.js';
import { STAGE_WORDS } from '../../../domain/making/mode.js';
import { extraBook } from '../../../storage/books/bench/extra-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { personBook } from '../../../storage/books/bench/person-book.js';
import type { WorkedOnWords } from '../../../storage/books/bench/worked-on-columns.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { planBook } from '../../../storage/books/plan-book.js';
import type { Reading, Writing } from '../../../storage/session.js';

/** What somebody says they work on. */
export type WorkSaid = {
  readonly garment?: string | undefined;
  /** Where it is said, the garment must belong to it. */
  readonly commission?: string | undefined;
  readonly operation?: string | undefined;
  readonly stage?: Stage | undefined;
  /** Words for work that is not in the plan. */
  readonly what?: string | undefined;
  readonly mode?: Mode | undefined;
  readonly away?: AwayKind | undefined;
  readonly cause?: Cause | undefined;
  readonly extra?: string | undefined;
  /** Of an own choice: it belongs to every such garment from now on. */
  readonly everyTime?: boolean | undefined;
};

/**
 * What minutes go into, found and checked: the garment is open and of the commission that was named, the operation is a
 * line of its plan, what is not planned has a cause.
 *
 * @throws NotFound, Invalid per field, Conflict where the garment is closed or cancelled
 */
export const workedOn = async (reading: Reading, said: WorkSaid): Promise<WorkedOnWords> => {
  if (said.away) return awayWork(said, said.away);
  if (!said.garment) throw Invalid.field('garment', 'Say which garment it was for, or that it was for none.');
  const garment = await garmentBook.one(reading, said.garment);
  if (said.commission && garment.commissionId !== said.commission)
    throw new NotFound('garment in this commission');
  await garmentMarkBook.mustBeOpen(reading, garment.id);
  const on = { commissionId: garment.commissionId, garmentId: garment.id, garmentName: garment.name };
  const extras = await extraBook.ofGarment(reading, garment.id);
  const extraOf = (operationId?: string): string | undefined => {
    if (!said.extra) return operationId ? extraOfLine(extras).get(operationId)?.id : undefined;
    if (!extras.some(({ id }) => id === said.extra))
      throw Invalid.field('extra', 'This extra belongs to another garment.');
    return said.extra;
  };
  const beside = { away: undefined, cause: said.cause };
  if (said.operation) {
    const line = await planBook.line(reading, garment.id, said.operation);
    if (!line) throw Invalid.field('operation', `The plan of the ${garment.name} has no such line.`);
    const mode = said.mode ?? (line.modeShares.length > 0 ? undefined : line.mode);
    const { id: operationId, kind, name, stage } = line;
    return { ...on, ...beside, operationId, kind, name, stage, mode, extraId: extraOf(line.id) };
  }
  if (said.stage) {
    const { stage } = said;
    if (!(await planBook.of(reading, garment.id)).some((line) => line.stage === stage))
      throw Invalid.field('stage', `The plan of the ${garment.name} has nothing in this stage.`);
    const name = STAGE_WORDS[stage];
    return {
      ...on,
      ...beside,
      operationId: undefined,
      kind: '',
      name,
      stage,
      mode: undefined,
      extraId: extraOf(),
    };
  }
  if (!said.cause) throw Invalid.field('cause', 'It is not in the plan. Say why it came up.');
  const name = said.what || causeRule(said.cause).words;
  return {
    ...on,
    ...beside,
    operationId: undefined,
    kind: kindOf(name),
    name,
    stage: undefined,
    mode: said.mode ?? 'hand',
    extraId: extraOf(),
  };
};

const awayWork = (said: WorkSaid, away: AwayKind): WorkedOnWords => {
  if (said.garment || said.operation || said.stage)
    throw Invalid.field('away', 'Say which garment it was for, or that it was for none.');
  if (said.cause) throw Invalid.field('cause', 'Time without a garment departs from no plan.');
  return {
    commissionId: undefined,
    garmentId: undefined,
    garmentName: '',
    operationId: undefined,
    kind: '',
    name: said.what ?? '',
    stage: undefined,
    mode: said.mode,
    away,
    cause: undefined,
    extraId: undefined,
  };
};

/**
 * Puts unplanned work of one's own choice on the list every such garment begins with. How long it takes is left open, so
 * that the next plan asks; a line already known is left as it is.
 *
 * @throws NotAllowed where somebody else than the owner asks for it
 */
export const everyTimeFromNowOn = async (writing: Writing, work: WorkedOnWords): Promise<boolean> => {
  if ((await personBook.mine(writing)).role !== 'owner')
    throw new NotAllowed('Only the owner says what is done every time from now on.');
  if (work.cause !== 'own choice' || work.operationId || work.stage || !work.garmentId) return false;
  const garment: Garment = await garmentBook.one(writing, work.garmentId);
  const known = await makingBook.operations(writing, garment.typeId);
  if (known.some(({ kind, isMenu }) => kind === work.kind && !isMenu)) return false;
  await makingBook.addOperation(writing, {
    garmentType: garment.typeId,
    no: Math.max(0, ...known.map(({ no }) => no)) + 1,
    kind: work.kind,
    name: work.name,
    stage: 'make',
    mode: work.mode ?? 'hand',
    driver: 'once',
    typicalCount: new Decimal(1),
    fixedMinutes: new Decimal(0),
    minutesPerUnit: new Decimal(0),
    needsMinutes: true,
    basting: false,
    isAlternative: false,
    insteadOf: [],
    makes: [],
    isMenu: false,
    fromStartingValues: false,
    source: 'our own, from the bench',
  });
  return true;
};

/** Where the history of this work stands. */
export const subjectOf = (work: Pick<WorkedOnWords, 'commissionId' | 'garmentId'>): string =>
  work.garmentId ? `commission/${work.commissionId}/garment/${work.garmentId}` : 'bench';
