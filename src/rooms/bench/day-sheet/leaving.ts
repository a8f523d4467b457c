import { type Leaving, leavingOrder, weeklyMinutes } from '../../../domain/commissions/landing/leaving.js';
import { type CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { type OpenGarment, openGarments } from '../../../storage/books/bench/open-garments.js';
import { unanswered } from '../../../storage/books/papers/unanswered.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { type HoursLeft, hoursLeft } from '../../../storage/landing/hours-left.js';
import type { Reading } from '../../../storage/session.js';

/** A garment in leaving order, with what is left of it and whether it will be ready. */
export type LeavingLine = Leaving & {
  readonly garment: OpenGarment;
  readonly dueOn: CalendarDate | undefined;
  readonly left: HoursLeft;
  /** Quoted, and nobody has answered or begun it: its hours are not counted before those of others. */
  readonly isOffered: boolean;
};

const NOTHING: HoursLeft = { worked: 0, even: 0, fourInFive: 0 };

/** The garments that leave next, those with a day first, at most so many. */
export const leavingNext = async (
  reading: Reading,
  today: CalendarDate,
  most: number,
): Promise<{ lines: LeavingLine[]; more: number }> => {
  const dayOf = ({ dueOn, wantedBy }: OpenGarment): string => dueOn ?? wantedBy ?? '9999';
  const all = [...(await openGarments(reading))].sort((a, b) =>
    dayOf(a) < dayOf(b) ? -1 : dayOf(a) > dayOf(b) ? 1 : 0,
  );
  const next = all.slice(0, most);
  const left = await hoursLeft(
    reading,
    next.map(({ id }) => id),
  );
  const offered = await unanswered(
    reading,
    next.map(({ commissionId }) => commissionId),
  );
  const works = next.map((garment) => {
    const own = left.get(garment.id) ?? NOTHING;
    const isOffered = own.worked === 0 && offered.has(garment.commissionId);
    return { garment, left: own, isOffered, dueOn: garment.dueOn ?? garment.wantedBy ?? undefined };
  });
  const card = await ratesBook.on(reading, today);
  const ordered = works.filter(({ isOffered }) => !isOffered);
  const order = leavingOrder(
    ordered.map(({ dueOn, left: { even, fourInFive } }) => ({ dueOn, even, fourInFive })),
    card ? weeklyMinutes(card) : 0,
    today,
  );
  const byWork = new Map(ordered.map((work, i) => [work, order[i]]));
  const lines = works.map((work): LeavingLine => {
    const own = byWork.get(work) ?? { readiness: 'no-day', needed: 0, there: 0 };
    return { ...work, ...own };
  });
  return { lines, more: all.length - next.length };
};
