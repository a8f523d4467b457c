import type { EntityTarget, ObjectLiteral } from 'typeorm';
import { minutesLeft } from '../../domain/commissions/landing/landing.js';
import type { Progress } from '../../domain/commissions/landing/progress.js';
import type { OperationAhead } from '../../domain/estimating/promise/fitting-gaps.js';
import type { Minutes } from '../../domain/kernel/minutes.js';
import { wholeMinutes } from '../../domain/kernel/minutes.js';
import { lessonBook, wordOfLesson } from '../lesson/lesson-book.js';
import { BenchEntryRow } from '../rows/bench/bench-entry.row.js';
import { ExtraRow } from '../rows/bench/extra.row.js';
import { GarmentRow } from '../rows/commissions/garment.row.js';
import { GarmentMarkRow } from '../rows/commissions/garment-mark.row.js';
import { OperationRow } from '../rows/commissions/operation.row.js';
import { PastGarmentRow } from '../rows/lessons/past-garment.row.js';
import { IssuedQuoteRow } from '../rows/papers/issued-quote.row.js';
import { QuoteAnswerRow } from '../rows/papers/quote-answer.row.js';
import { keptIn, type Reading } from '../session.js';
import { workOfGarment } from './garment-under-way.js';

/** What is left of a garment, in whole minutes. */
export type HoursLeft = {
  readonly worked: Minutes;
  readonly even: Minutes;
  readonly fourInFive: Minutes;
};

/** The same with its doubt: what a promise is worked out from. */
export type HoursAhead = HoursLeft & {
  /** Minutes left with chance q of taking no longer. */
  readonly minutesAt: (q: number) => number;
  /** The share of the doubt that all garments have in common. */
  readonly inCommon: number;
  /** In the order of the plan. */
  readonly operations: readonly OperationAhead[];
};

/** A quarter of the usual draws: lists are told in hours. */
const DRAWS = 1024;
const MOST_KEPT = 1000;

/** What was worked out, by garment; good for as long as nothing it rests on has changed. */
const known = new Map<string, { readonly restsOn: string; readonly left: HoursAhead }>();

/**
 * Minutes left of some garments. A forecast takes milliseconds, so each is kept in memory by what it rests on: entries, marks, plan,
 * extras, answers to quotes, the notebook, and the lesson. A minute written for one garment then costs one forecast, not twenty.
 */
export const hoursLeft = async (
  reading: Reading,
  garmentIds: readonly string[],
): Promise<ReadonlyMap<string, HoursAhead>> => {
  const lesson = wordOfLesson(await lessonBook.present(reading));
  return keptIn(reading, `hours left ${lesson} ${garmentIds.join(' ')}`, async () => {
    const rests = await restsOf(reading, garmentIds, lesson);
    const found = new Map<string, HoursAhead>();
    for (const id of garmentIds) {
      const restsOn = rests.get(id) ?? '';
      const kept = known.get(id);
      const left = kept?.restsOn === restsOn ? kept.left : await leftOf(reading, id);
      if (known.size > MOST_KEPT) known.clear();
      known.set(id, { restsOn, left });
      found.set(id, left);
    }
    return found;
  });
};

const leftOf = async (reading: Reading, garmentId: string): Promise<HoursAhead> => {
  const work = await workOfGarment(reading, garmentId);
  const { progress, forecast, mendingLeft, leftAt } = minutesLeft(work, work.lesson, DRAWS);
  const towards = progress.operations.reduce((sum, { minutes }) => sum + minutes, 0);
  return {
    worked: progress.worked,
    even: wholeMinutes(leftAt('0.5')),
    fourInFive: wholeMinutes(leftAt('0.8')),
    minutesAt: (q) => forecast.totalAt(q) - towards + Number(mendingLeft),
    inCommon: forecast.doubt.history,
    operations: operationsAhead(progress, forecast.medians),
  };
};

/** Operations as the waiting for fittings sees them. */
export const operationsAhead = (progress: Progress, medians: readonly number[]): OperationAhead[] =>
  progress.operations.map(({ operation: { stage, mode }, minutes, state }, i) => ({
    left: state === 'finished' ? 0 : Math.max(0, (medians[i] ?? 0) - minutes),
    isFitting: stage === 'fit' && mode === 'fitting',
    isFinished: state === 'finished',
  }));

type Figures = { id: string; count: number | string; last: string | number | null };

/** For each garment a word that changes with whatever its forecast rests on. */
const restsOf = async (
  reading: Reading,
  ids: readonly string[],
  lesson: string,
): Promise<Map<string, string>> => {
  const words = new Map<string, string>(ids.map((id) => [id, '']));
  if (ids.length === 0) return words;
  const { manager } = reading;
  const add = (rows: readonly Figures[]): void => {
    const figures = new Map(rows.map(({ id, count, last }) => [id, `${count} ${last}`]));
    for (const [id, word] of words) words.set(id, `${word}|${figures.get(id) ?? ''}`);
  };
  const byGarment = (row: EntityTarget<ObjectLiteral>, last: string): Promise<Figures[]> =>
    manager
      .createQueryBuilder(row, 'one')
      .select('one.garment_id', 'id')
      .addSelect('COUNT(*)', 'count')
      .addSelect(last, 'last')
      .where('one.garment_id IN (:...ids)', { ids: [...ids] })
      .groupBy('one.garment_id')
      .getRawMany<Figures>();
  add(await byGarment(BenchEntryRow, 'MAX(one.id)'));
  add(await byGarment(GarmentMarkRow, 'MAX(one.id)'));
  add(await byGarment(OperationRow, 'SUM(one.version)'));
  add(await byGarment(ExtraRow, 'SUM(one.version)'));
  add(
    await manager
      .createQueryBuilder(GarmentRow, 'one')
      .leftJoin(IssuedQuoteRow, 'quote', 'quote.commission_id = one.commission_id')
      .leftJoin(QuoteAnswerRow, 'answer', 'answer.quote_id = quote.id')
      .select('one.id', 'id')
      .addSelect('COUNT(answer.id)', 'count')
      .addSelect('MAX(one.version)', 'last')
      .where('one.id IN (:...ids)', { ids: [...ids] })
      .groupBy('one.id')
      .getRawMany<Figures>(),
  );
  const notebook = await manager
    .createQueryBuilder(PastGarmentRow, 'one')
    .select('COUNT(*)', 'count')
    .addSelect('SUM(one.version)', 'last')
    .getRawOne<Figures>();
  const learnt = `${lesson} ${notebook?.count} ${notebook?.last}`;
  for (const [id, word] of words) words.set(id, `${word}|${learnt}`);
  return words;
};
