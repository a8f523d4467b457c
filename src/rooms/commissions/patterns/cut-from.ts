import type { Garment } from '../../../domain/commissions/garment.js';
import { type Pattern, withoutDrafting } from '../../../domain/fitting/pattern.js';
import { Conflict, Invalid } from '../../../domain/kernel/errors.js';
import { copyPlan, type MakingPlan } from '../../../domain/making/making-plan.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { fittingBook } from '../../../storage/books/fitting/fitting-book.js';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { planBook } from '../../../storage/books/plan-book.js';
import type { Reading, Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { countInWords } from '../../../web/words/counts.js';
import { garmentSubject } from '../open-commission.js';
import { putPlan } from '../plan/change-plan.js';
import type { HungSaid } from './pattern.form.js';

const openGarment = async (writing: Writing, id: string): Promise<Garment> => {
  const garment = await garmentBook.one(writing, id);
  await garmentMarkBook.mustBeOpen(writing, id);
  return garment;
};

/** Hangs up the pattern drafted for a garment; what its fittings changed on it last stands on it already. @throws Conflict when the garment has one */
export const hangUpPattern = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  said: HungSaid,
): Promise<Done<Pattern>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    const there = await patternBook.ofGarment(writing, garmentId);
    if (there) throw new Conflict(`The ${garment.name} is cut from ${there.number} already.`, 'has-pattern');
    const last = (await fittingBook.ofGarment(writing, garmentId))
      .filter(({ state, patternChanged }) => state === 'held' && patternChanged)
      .at(-1);
    const pattern = await patternBook.hangUp(writing, {
      ...said,
      name: said.name || garment.name,
      clientId: garment.wearerId,
      garmentType: garment.typeId,
      lastCorrection: last?.patternWords ?? '',
      correctedOn: last?.on,
      fittingId: last?.id,
      fromGarmentId: garmentId,
    });
    await patternBook.use(writing, garmentId, pattern.id);
    writing.says(`Hung up the pattern ${pattern.number} of the ${garment.name}`, garmentSubject(garment));
    return pattern;
  });

/** What came of it: the pattern, and the draft operations that were left out. */
export type CutFrom = { readonly pattern: Pattern; readonly left: MakingPlan };

/**
 * Cuts a garment from a pattern that hangs there; the draft operations of its plan are left out where that is wanted.
 *
 * @throws Invalid when the pattern is somebody else's; Conflict when the garment is closed or cancelled
 */
export const cutFrom = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  patternId: string,
  leaveOutDrafting: boolean,
): Promise<Done<CutFrom>> =>
  unit.write(visit, async (writing) => {
    const garment = await openGarment(writing, garmentId);
    const pattern = await ownPattern(writing, garment, patternId);
    await patternBook.use(writing, garmentId, pattern.id);
    const { plan, left } = withoutDrafting(await planBook.of(writing, garmentId));
    if (leaveOutDrafting && left.length > 0) await planBook.keep(writing, garmentId, plan);
    const out = leaveOutDrafting ? left : [];
    writing.says(
      `Cut the ${garment.name} from the pattern ${pattern.number}${sparedInWords(out)}`,
      garmentSubject(garment),
    );
    return { pattern, left: out };
  });

/** The garment is cut from no kept pattern. */
export const cutFromNone = (unit: UnitOfWork, visit: Visit, garmentId: string): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    const garment = await openGarment(writing, garmentId);
    await patternBook.useNone(writing, garmentId);
    writing.says(`The ${garment.name} is cut from no kept pattern`, garmentSubject(garment));
  });

/**
 * The same again: the plan of an earlier garment in the place of the present one, cut from its pattern, without drafting.
 *
 * @throws Invalid when the earlier garment has no plan, no pattern, or its pattern fits somebody else
 */
export const sameAgain = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  from: string,
): Promise<Done<MakingPlan>> =>
  putPlan(unit, visit, garmentId, async (writing) => {
    const garment = await openGarment(writing, garmentId);
    const earlier = await garmentBook.one(writing, from);
    const hung = await patternBook.ofGarment(writing, from);
    if (!hung) throw new Invalid(`The pattern of the ${earlier.name} hangs on no hook.`);
    const pattern = await ownPattern(writing, garment, hung.id);
    const copy = copyPlan(await planBook.of(writing, from), () => writing.newId());
    const { plan, left } = withoutDrafting(copy);
    if (plan.length === 0) throw new Invalid(`The ${earlier.name} has no operations to take over.`);
    await patternBook.use(writing, garmentId, pattern.id);
    return {
      plan,
      says: `The ${garment.name} is the ${earlier.name} again, cut from ${pattern.number}${sparedInWords(left)}`,
    };
  });

const sparedInWords = (left: MakingPlan): string =>
  left.length === 0 ? '' : `; ${countInWords(left.length, 'draft operation')} left out`;

/** A pattern of the garment's own wearer: another's would not fit. @throws Invalid, NotFound */
const ownPattern = async (reading: Reading, garment: Garment, patternId: string): Promise<Pattern> => {
  const pattern = await patternBook.one(reading, patternId);
  if (pattern.clientId !== garment.wearerId)
    throw Invalid.field('pattern', `The pattern ${pattern.number} was cut for somebody else.`);
  return pattern;
};
