import { planToEstimate } from '../../../domain/commissions/garment-sum.js';
import { type Explanation, explain } from '../../../domain/estimating/explain.js';
import { type LeftOut, leftOut } from '../../../domain/estimating/forgotten.js';
import { type Drift, drift } from '../../../domain/estimating/proof/drift.js';
import { learningByRepeats, type Repeats } from '../../../domain/estimating/repeats.js';
import { type WorthTiming, worthTiming } from '../../../domain/estimating/time-next.js';
import {
  type ModeLesson,
  modeLessons,
  namesOfKinds,
  type OperationLesson,
  operationLessons,
} from '../../../domain/lessons/by-operation.js';
import { lessonsFrom } from '../../../domain/lessons/closed-garment.js';
import { type Earned, earnedTogether } from '../../../domain/lessons/earned-by-type.js';
import { type Mending, mendingShare } from '../../../domain/lessons/mending-share.js';
import { startingPlan } from '../../../domain/making/starting-plan.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { lessonBook, wordOfLesson } from '../../../storage/lesson/lesson-book.js';
import { keptIn, type Reading } from '../../../storage/session.js';
import { lessonOf } from '../lessons-of.js';

/** Everything past garments say about one type. */
export type TypeTold = Awaited<ReturnType<typeof lessonOf>> & {
  readonly locale: string;
  readonly operations: readonly OperationLesson[];
  readonly modes: readonly ModeLesson[];
  readonly leftOut: LeftOut;
  readonly mending: Mending;
  readonly earned: Earned | undefined;
  readonly drift: Drift;
  readonly repeats: Repeats | undefined;
  readonly worthTiming: readonly WorthTiming[];
  /** The type's usual plan, line by line. */
  readonly usual: readonly (Explanation & { readonly name: string })[];
  readonly names: ReadonlyMap<string, string>;
};

/** Gathers what is known of one type. @throws NotFound */
export const typeTold = async (reading: Reading, typeId: string): Promise<TypeTold> => {
  const lesson = await lessonBook.present(reading);
  const told = await keptIn(reading, `lesson of ${typeId} by ${wordOfLesson(lesson)}`, () =>
    gathered(reading, typeId),
  );
  // A proof is worked out beside the requests and is no write, so it is asked for each time.
  const { proof } = await lessonBook.proof(reading);
  const own = proof?.trail.filter(({ garmentType }) => garmentType === typeId) ?? [];
  return { ...told, drift: drift(own.map(({ z }) => z)) };
};

const gathered = async (reading: Reading, typeId: string): Promise<Omit<TypeTold, 'drift'>> => {
  const known = await lessonOf(reading, typeId);
  const { identity } = await studioBook.the(reading);
  const [lesson, all, operations] = [
    await lessonBook.present(reading),
    await lessonBook.closed(reading),
    await makingBook.operations(reading, typeId),
  ];
  const closed = all.filter((one) => one.typeId === typeId);
  const byOperation = (await lessonBook.byOperation(reading)).filter((one) => one.typeId === typeId);
  const { plan } = startingPlan(known.type, 'hand-where-it-shows', operations, () => typeId);
  const usual = planToEstimate(typeId, plan);
  const timed = plan.filter((_, place) => (usual.operations[place]?.plannedMinutes ?? 0) > 0);
  const names = new Map([
    ...plan.map(({ kind, name }) => [kind, name] as const),
    ...namesOfKinds(byOperation),
  ]);
  const again = all.filter(({ repeat }) => repeat > 1).length;
  return {
    ...known,
    locale: identity.locale,
    operations: operationLessons(byOperation),
    modes: modeLessons(byOperation),
    leftOut: leftOut(lessonsFrom(byOperation), typeId),
    mending: mendingShare(all, typeId),
    earned: earnedTogether(
      closed.flatMap(({ earned }) => earned ?? []),
      identity.currency,
    ),
    repeats: learningByRepeats(lesson, again),
    worthTiming: worthTiming(lesson, usual),
    usual: explain(lesson, usual).map((one, place) => ({ ...one, name: timed[place]?.name ?? one.kind })),
    names,
  };
};
