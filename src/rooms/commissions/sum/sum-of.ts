import type { Commission } from '../../../domain/commissions/commission.js';
import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import { type GarmentSum, garmentSum, type SumBasis } from '../../../domain/commissions/garment-sum.js';
import type { Studio } from '../../../domain/house/studio.js';
import { mendingShare } from '../../../domain/lessons/mending-share.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import { lessonBook } from '../../../storage/lesson/lesson-book.js';
import { notebookOf } from '../../../storage/lesson/notebook.js';
import type { Reading } from '../../../storage/session.js';

/** What the sums of one commission have in common; none of it when the studio has no rates yet. */
export type Pricing = {
  readonly studio: Studio;
  readonly commission: Commission;
  /** What several garments of a type are called. */
  readonly typeName: (typeId: string) => string;
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
  const closed = await lessonBook.closed(reading);
  const types = await makingBook.types(reading);
  return {
    studio,
    commission,
    typeName: (typeId) => types.find(({ id }) => id === typeId)?.plural ?? typeId,
    basisOf: async ({ garment }) =>
      rates && {
        rates,
        pricing: commission.pricing,
        tax: studio.tax,
        lesson,
        mendingShare: mendingShare(closed, garment.typeId).share,
        ...(await notebookOf(reading, garment.typeId, garment.make)),
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
