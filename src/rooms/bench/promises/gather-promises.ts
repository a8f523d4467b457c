import { weeklyMinutes } from '../../../domain/commissions/landing/leaving.js';
import { fittingGaps } from '../../../domain/estimating/promise/fitting-gaps.js';
import { type Simulated, simulate, type WorkAhead } from '../../../domain/estimating/promise/simulate.js';
import {
  WEEKS_BACK,
  type WeeklyHours,
  weeklyHours,
} from '../../../domain/estimating/promise/weekly-hours.js';
import type { WorkCalendar } from '../../../domain/estimating/promise/work-days.js';
import type { Fitting } from '../../../domain/fitting/fitting.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import { addDays, type CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { closedDayBook } from '../../../storage/books/bench/closed-day-book.js';
import { type OpenGarment, openGarments } from '../../../storage/books/bench/open-garments.js';
import { sittingBook } from '../../../storage/books/bench/sitting-book.js';
import { fittingBook } from '../../../storage/books/fitting/fitting-book.js';
import { unanswered } from '../../../storage/books/papers/unanswered.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import { type HoursAhead, hoursLeft } from '../../../storage/landing/hours-left.js';
import { lessonBook, wordOfLesson } from '../../../storage/lesson/lesson-book.js';
import { keptIn, type Reading } from '../../../storage/session.js';

/** An open garment with the work that is left of it. */
export type PromisedGarment = {
  readonly garment: OpenGarment;
  readonly dueOn: CalendarDate | undefined;
  readonly left: HoursAhead;
  readonly work: WorkAhead;
};

/** The backlog in leaving order, and the days there are to work it off. */
export type Backlog = {
  readonly identity: StudioIdentity;
  readonly today: CalendarDate;
  readonly weekly: WeeklyHours;
  readonly calendar: WorkCalendar;
  readonly works: readonly PromisedGarment[];
  /** Quoted and not begun, nobody has answered: they hold no place. */
  readonly offered: readonly OpenGarment[];
  /** No time is planned on them, so nothing can be said. */
  readonly unplanned: readonly OpenGarment[];
};

/** More garments than this are no backlog of a workroom of six. */
const MOST = 300;
const FURTHEST_FITTING = 1000;

/** The backlog as it stands today. */
export const gatherBacklog = async (reading: Reading, clock: Clock): Promise<Backlog> => {
  const { identity } = await studioBook.the(reading);
  const today = todayIn(clock, identity.zone);
  const closedDays = await closedDayBook.since(reading, addDays(today, -7 * WEEKS_BACK));
  const weekly = await weeklyOf(reading, today, closedDays);
  const calendar = { from: today, minutesOn: weekly.minutesOn, closedDays };
  const dayOf = ({ dueOn, wantedBy }: OpenGarment): string => dueOn ?? wantedBy ?? '9999';
  const all = [...(await openGarments(reading))]
    .sort((a, b) => (dayOf(a) < dayOf(b) ? -1 : dayOf(a) > dayOf(b) ? 1 : 0))
    .slice(0, MOST);
  const ids = all.map(({ id }) => id);
  const left = await hoursLeft(reading, ids);
  const isOffered = await unanswered(
    reading,
    all.map(({ commissionId }) => commissionId),
  );
  const planned = await plannedFittings(reading, today);
  const works: PromisedGarment[] = [];
  const offered: OpenGarment[] = [];
  const unplanned: OpenGarment[] = [];
  for (const garment of all) {
    const own = left.get(garment.id);
    if (!own) continue;
    if (own.worked === 0 && isOffered.has(garment.commissionId)) offered.push(garment);
    else if (own.worked === 0 && own.even === 0) unplanned.push(garment);
    else {
      const gaps = fittingGaps(
        own.operations,
        await heldOf(reading, garment.id),
        (planned.get(garment.id) ?? []).map(({ on }) => on),
      );
      const { minutesAt, inCommon } = own;
      const dueOn = garment.dueOn ?? garment.wantedBy ?? undefined;
      works.push({ garment, dueOn, left: own, work: { ref: garment.id, minutesAt, inCommon, gaps } });
    }
  }
  return { identity, today, weekly, calendar, works, offered, unplanned };
};

/** Does the week hold any minutes? Without them there is no date to be named. */
export const knowsHours = ({ weekly }: Backlog): boolean => weekly.minutesOn.some((one) => one > 0);

/** The dates of the backlog as it stands, kept while nothing is written. */
export const datesOf = async (reading: Reading, backlog: Backlog): Promise<Simulated> => {
  const lesson = wordOfLesson(await lessonBook.present(reading));
  return keptIn(reading, `promises on ${backlog.today} ${lesson}`, async () =>
    simulate(
      backlog.works.map(({ work }) => work),
      backlog.calendar,
    ),
  );
};

/** The same with further closed days. */
export const datesWithout = (backlog: Backlog, closed: readonly CalendarDate[]): Simulated =>
  simulate(
    backlog.works.map(({ work }) => work),
    { ...backlog.calendar, closedDays: [...backlog.calendar.closedDays, ...closed] },
  );

const weeklyOf = async (
  reading: Reading,
  today: CalendarDate,
  closedDays: readonly CalendarDate[],
): Promise<WeeklyHours> => {
  const card = await ratesBook.on(reading, today);
  const worked = await sittingBook.days(reading, addDays(today, -7 * WEEKS_BACK), addDays(today, -1));
  return weeklyHours({ today, worked, closedDays, byCard: card ? weeklyMinutes(card) : 0 });
};

const plannedFittings = async (
  reading: Reading,
  today: CalendarDate,
): Promise<ReadonlyMap<string, Fitting[]>> => {
  const found = new Map<string, Fitting[]>();
  for (const fitting of await fittingBook.between(reading, today, addDays(today, FURTHEST_FITTING)))
    if (fitting.state === 'planned')
      for (const id of fitting.garmentIds) found.set(id, [...(found.get(id) ?? []), fitting]);
  return found;
};

const heldOf = async (reading: Reading, garmentId: string): Promise<number> =>
  (await fittingBook.ofGarment(reading, garmentId)).filter(({ state }) => state === 'held').length;
