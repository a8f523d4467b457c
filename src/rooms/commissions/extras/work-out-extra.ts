import { standingEntries } from '../../../domain/bench/worked.js';
import { withExtra } from '../../../domain/commissions/agreed-plan.js';
import type { ExtraWork } from '../../../domain/commissions/extra.js';
import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { minutesOfHours } from '../../../domain/kernel/minutes.js';
import { Money } from '../../../domain/kernel/money.js';
import { planMinutes } from '../../../domain/making/plan-minutes.js';
import { promiseByMinutes } from '../../../domain/promising/promise-by-minutes.js';
import type { RateCard } from '../../../domain/rates/rate-card.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { type Pricing, pricingOf, sumOfPlanned } from '../sum/sum-of.js';

/** What an extra does to a garment's hours, price and day, before anybody agrees. */
export type ExtraWorkedOut = {
  /** Minutes it adds at 4 in 5; below nought where work is taken out. The planned ones where there are no rates yet. */
  readonly minutes: Decimal;
  /** What it adds to the price, as the studio keeps its prices; none without rates. */
  readonly price: Money | undefined;
  readonly withTax: boolean;
  /** Minutes still to work on the garment at 4 in 5, with it. */
  readonly left: Decimal;
  /** What a week holds; none where no rate card says. */
  readonly weekly: Decimal | undefined;
  /** When what is left would be done, without it and with it, were nothing else on the bench. */
  readonly done: { readonly without: CalendarDate; readonly with: CalendarDate } | undefined;
  readonly dueBefore: CalendarDate | undefined;
  /** The garment's day if it holds, else the day on which what is left would be done. */
  readonly dueAfter: CalendarDate | undefined;
};

/**
 * Works an extra out: the garment's sum with it and without it, at the commission's pricing choices, and what is left at
 * 4 in 5 over the week's hours. A price set by hand is left aside, as it says nothing about what work costs.
 */
export const workOutExtra = async (
  reading: Reading,
  clock: Clock,
  planned: PlannedGarment,
  work: ExtraWork,
): Promise<ExtraWorkedOut> => {
  const pricing = await pricingOf(reading, clock, planned.garment.commissionId);
  const plain: PlannedGarment = { ...planned, garment: { ...planned.garment, ownPrice: undefined } };
  const hours = await hoursAndPrice(pricing, plain, work);
  const { studio, commission } = pricing;
  const today = todayIn(clock, studio.identity.zone);
  const worked = standingEntries(await benchBook.ofGarment(reading, planned.garment.id)).reduce(
    (sum, { minutes }) => sum + minutes,
    0,
  );
  const leftOf = (whole: Decimal): Decimal => Decimal.max(0, whole.minus(worked));
  const weekly = weeklyMinutes(await ratesBook.on(reading, today));
  const done = weekly && doneBy(today, weekly, leftOf(hours.before), leftOf(hours.after));
  const dueBefore = planned.garment.dueOn ?? commission.wantedBy;
  return {
    minutes: hours.after.minus(hours.before),
    price: hours.price,
    withTax: studio.tax.pricesInclude === 'tax' && studio.tax.registered,
    left: leftOf(hours.after),
    weekly,
    done,
    dueBefore,
    dueAfter: dueBefore && (!done || done.with <= dueBefore) ? dueBefore : done?.with,
  };
};

const hoursAndPrice = async (
  pricing: Pricing,
  planned: PlannedGarment,
  work: ExtraWork,
): Promise<{ before: Decimal; after: Decimal; price: Money | undefined }> => {
  const with_ = withExtra(planned, work);
  const [before, after] = [await sumOfPlanned(pricing, planned), await sumOfPlanned(pricing, with_)];
  if (!before || !after)
    return {
      before: new Decimal(planMinutes(planned.plan).minutes),
      after: new Decimal(planMinutes(with_.plan).minutes),
      price: undefined,
    };
  const { tax } = pricing.studio;
  const kept = tax.pricesInclude === 'tax' && tax.registered ? 'gross' : 'net';
  return {
    before: before.hours.total.fourInFive,
    after: after.hours.total.fourInFive,
    price: after.answer.price[kept].minus(before.answer.price[kept]),
  };
};

/** Productive minutes of a week of whoever's hour it is; none where the card says only what an hour costs. */
const weeklyMinutes = (card: RateCard | undefined): Decimal | undefined => {
  const year = card?.workings.people.find(({ name }) => name === card.person)?.year;
  const minutes = year && minutesOfHours(year.hoursAWeek.times(year.productiveShare));
  return minutes?.gt(0) ? minutes : undefined;
};

const doneBy = (
  from: CalendarDate,
  weeklyMinutes: Decimal,
  without: Decimal,
  with_: Decimal,
): ExtraWorkedOut['done'] => {
  try {
    const days = promiseByMinutes({
      from,
      backlogMinutes: new Decimal(0),
      weeklyMinutes,
      garmentMinutes: { without, with: with_ },
    });
    return { without: days.without!, with: days.with! };
  } catch (error) {
    // Not within a hundred years: there is no day to propose.
    if (error instanceof Invalid) return undefined;
    throw error;
  }
};
