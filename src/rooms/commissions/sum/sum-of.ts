import type { Commission } from '../../../domain/commissions/commission.js';
import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import { type GarmentSum, garmentSum, type SumBasis } from '../../../domain/commissions/garment-sum.js';
import type { NotebookTotal } from '../../../domain/estimating/garment-hours.js';
import type { Studio } from '../../../domain/house/studio.js';
import { minutesOfHours } from '../../../domain/kernel/minutes.js';
import type { PastGarment } from '../../../domain/lessons/past-garment.js';
import { planMinutes } from '../../../domain/making/plan-minutes.js';
import { startingPlan } from '../../../domain/making/starting-plan.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { lessonBook } from '../../../storage/lesson/lesson-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { pastGarmentBook } from '../../../storage/books/past-garment-book.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import { keptIn, type Reading } from '../../../storage/session.js';

/** What the sums of one commission have in common; none of it when the studio has no rates yet. */
export type Pricing = {
  readonly studio: Studio;
  readonly commission: Commission;
  readonly basisOf: (planned: PlannedGarment) => Promise<SumBasis | undefined>;
};

/** Gathers what the garments of a commission are priced by today. */
export const pricingOf = async (reading: Reading, clock: Clock, commissionId: string): Promise<Pricing> => {
  const [studio, commission] = [
    await studioBook.the(reading),
    await commissionBook.one(reading, commissionId),
  ];
  const rates = await ratesBook.on(reading, todayIn(clock, studio.identity.zone));
  const lesson = await lessonBook.present(reading);
  return {
    studio,
    commission,
    basisOf: async ({ garment }) =>
      rates && {
        rates,
        pricing: commission.pricing,
        tax: studio.tax,
        lesson,
        notebook: (await pastGarmentBook.ofType(reading, garment.typeId)).map(notebookTotal),
        usualMinutes: await usualMinutes(reading, garment.typeId, garment.make),
      },
  };
};

/** The sum of one garment as it is kept; undefined when the studio has no rates yet. */
export const sumOf = async (
  reading: Reading,
  clock: Clock,
  garmentId: string,
): Promise<GarmentSum | undefined> => {
  const planned = await garmentBook.planned(reading, garmentId);
  return sumOfPlanned(await pricingOf(reading, clock, planned.garment.commissionId), planned);
};

/** The sum of a garment as it stands on a page, kept or not. */
export const sumOfPlanned = async (
  pricing: Pricing,
  planned: PlannedGarment,
): Promise<GarmentSum | undefined> => {
  const basis = await pricing.basisOf(planned);
  return basis && garmentSum({ planned, ...basis });
};

const notebookTotal = ({ hours, plannedHours }: PastGarment): NotebookTotal => ({
  minutes: minutesOfHours(hours).toNumber(),
  ...(plannedHours ? { plannedMinutes: minutesOfHours(plannedHours).toNumber() } : {}),
});

/** Planned minutes of the type's usual plan: what a notebook total is measured against when it has no plan of its own. */
const usualMinutes = async (
  reading: Reading,
  typeId: string,
  make: PlannedGarment['garment']['make'],
): Promise<number> =>
  keptIn(reading, `usual minutes ${typeId} ${make}`, async () => {
    const type = await makingBook.type(reading, typeId);
    const { plan } = startingPlan(type, make, await makingBook.operations(reading, typeId), () => type.id);
    return planMinutes(plan).minutes;
  });
