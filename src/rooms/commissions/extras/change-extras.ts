import { withExtra } from '../../../domain/commissions/agreed-plan.js';
import {
  type Extra,
  type ExtraAnswer,
  type ExtraState,
  type ExtraWords,
  extraName,
  takingBack,
} from '../../../domain/commissions/extra.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { foldTyped } from '../../../domain/measuring/typed-text.js';
import { clockBook } from '../../../storage/books/bench/clock-book.js';
import { extraBook } from '../../../storage/books/bench/extra-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { personBook } from '../../../storage/books/bench/person-book.js';
import { estimateBook } from '../../../storage/books/estimate-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { planBook } from '../../../storage/books/plan-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { garmentSubject } from '../open-commission.js';

/** What may be answered to an offer: agreed, declined, withdrawn, or given with our compliments. */
export type AnswerAct = Exclude<ExtraState, 'offered'> | 'given';

const SAID: Readonly<Record<AnswerAct, string>> = {
  agreed: 'Put down that',
  declined: 'Put down that',
  withdrawn: 'Withdrew',
  given: 'Gave',
};

/** Offers an extra, or gives it at once. @throws Conflict on a garment that is closed or cancelled */
export const offerExtra = (
  unit: UnitOfWork,
  visit: Visit,
  words: ExtraWords,
  today: CalendarDate,
): Promise<Done<Extra>> =>
  unit.write(visit, async (writing) => {
    await garmentMarkBook.mustBeOpen(writing, words.garmentId);
    const garment = await garmentBook.one(writing, words.garmentId);
    const offered = await extraBook.add(writing, words, today);
    await takeUpByClock(writing, offered);
    const isGiven = words.kind === 'compliments' && !words.takesBack;
    writing.says(
      `${isGiven ? 'Gave' : 'Offered'} ${extraName(offered)} on the ${garment.name}: ${offered.wording}`,
      garmentSubject(garment),
    );
    if (!isGiven) return offered;
    const given = { on: today, byWhom: '', how: '', words: '' };
    const extra = await extraBook.give(writing, offered.id, given, today);
    await putIntoPlan(writing, extra);
    return extra;
  });

/**
 * Keeps what was answered. What is agreed, or given, goes into the plan, the materials and the expenses of the garment, and
 * moves its day.
 *
 * @throws Conflict when it was answered before, or the garment is closed or cancelled; Stale when it changed meanwhile
 */
export const answerExtra = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  act: AnswerAct,
  answer: ExtraAnswer,
  today: CalendarDate,
  seen?: number,
): Promise<Done<Extra>> =>
  unit.write(visit, async (writing) => {
    const present = await extraBook.one(writing, id);
    const extra =
      act === 'given'
        ? await extraBook.give(writing, id, answer, today, seen)
        : await extraBook.answer(writing, id, act, answer, today, seen);
    const garment = await garmentBook.one(writing, present.garmentId);
    if (extra.state === 'agreed') {
      await garmentMarkBook.mustBeOpen(writing, present.garmentId);
      await putIntoPlan(writing, extra);
    }
    const was = act === 'agreed' || act === 'declined' ? ` was ${act}` : '';
    writing.says(`${SAID[act]} ${extraName(extra)} on the ${garment.name}${was}`, garmentSubject(garment));
    return extra;
  });

/** Offers the extra that takes an agreed one back. @throws Conflict when that cannot be */
export const offerTakingBack = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  wording: string,
  today: CalendarDate,
): Promise<Done<Extra>> =>
  unit.write(visit, async (writing) => {
    const present = await extraBook.one(writing, id);
    const others = await extraBook.ofCommission(writing, present.commissionId);
    await garmentMarkBook.mustBeOpen(writing, present.garmentId);
    const garment = await garmentBook.one(writing, present.garmentId);
    const extra = await extraBook.add(writing, takingBack(present, others, wording), today);
    writing.says(
      `Offered ${extraName(extra)} on the ${garment.name}, which takes ${extraName(present)} back`,
      garmentSubject(garment),
    );
    return extra;
  });

/**
 * The clock that runs on the same departure counts for the extra from its beginning: where several run, those whose words
 * stand among its work, or else the clock of whoever offers it.
 */
const takeUpByClock = async (writing: Writing, { id, garmentId, cause, work }: Extra): Promise<void> => {
  const departed = (await clockBook.ofGarment(writing, garmentId)).filter(
    (clock) => clock.cause === cause && !clock.extraId && !clock.operationId && !clock.stage,
  );
  if (departed.length === 0) return;
  const names = new Set(work.operations.map(({ line }) => foldTyped(line.name)));
  const meant = departed.filter(({ name }) => names.has(foldTyped(name)));
  const mine = (await personBook.mine(writing)).id;
  const taken = meant.length > 0 ? meant : departed.filter(({ personId }) => personId === mine);
  if (taken.length === 0) return;
  writing.forGood();
  for (const clock of taken) await clockBook.correct(writing, { ...clock, extraId: id });
};

/** The lines of an extra under the keys they have in it: so the bench clocks them, and they are known as the extra's. */
const putIntoPlan = async (writing: Writing, { garmentId, work, dueAfter }: Extra): Promise<void> => {
  const { garment, ...planned } = await garmentBook.planned(writing, garmentId);
  const agreed = withExtra(planned, work);
  await planBook.keep(writing, garmentId, agreed.plan);
  await keepLines(planned.materials, agreed.materials, {
    add: ({ id, version: _, ...line }) => estimateBook.addMaterial(writing, garmentId, line, id),
    remove: (id) => estimateBook.removeMaterial(writing, id),
  });
  await keepLines(planned.expenses, agreed.expenses, {
    add: ({ id, version: _, ...line }) => estimateBook.addExpense(writing, garmentId, line, id),
    remove: (id) => estimateBook.removeExpense(writing, id),
  });
  if (dueAfter && dueAfter !== garment.dueOn)
    await garmentBook.correct(writing, { ...garment, dueOn: dueAfter });
};

const keepLines = async <Line extends { readonly id: string }>(
  present: readonly Line[],
  wanted: readonly Line[],
  acts: { add: (line: Line) => Promise<unknown>; remove: (id: string) => Promise<unknown> },
): Promise<void> => {
  const [before, after] = [new Set(present.map(({ id }) => id)), new Set(wanted.map(({ id }) => id))];
  for (const { id } of present) if (!after.has(id)) await acts.remove(id);
  for (const line of wanted) if (!before.has(line.id)) await acts.add(line);
};
