import type { Commission } from '../../../domain/commissions/commission.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import { operationMarks, standingMarks } from '../../../domain/commissions/garment-mark.js';
import type { Fitting } from '../../../domain/fitting/fitting.js';
import type { Pattern } from '../../../domain/fitting/pattern.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { MakingPlan } from '../../../domain/making/making-plan.js';
import type { BenchHead } from '../../../printing/papers/bench-papers.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { fittingBook } from '../../../storage/books/fitting/fitting-book.js';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { planBook } from '../../../storage/books/plan-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading } from '../../../storage/session.js';
import { capitalised } from '../../../web/words/counts.js';

/** What the papers of one garment are written from. */
export type GarmentPapers = {
  readonly studio: Studio;
  readonly commission: Commission;
  readonly garment: Garment;
  readonly pattern: Pattern | undefined;
  readonly fittings: readonly Fitting[];
  /** Lines that were not left out. */
  readonly plan: MakingPlan;
  readonly finished: ReadonlySet<string>;
  readonly isCut: boolean;
  readonly head: BenchHead;
};

/**
 * Gathers what a garment's papers say. They name it by its type: the name somebody gave it may say whose it is.
 *
 * @throws NotFound
 */
export const gatherPapers = async (reading: Reading, garmentId: string): Promise<GarmentPapers> => {
  const garment = await garmentBook.one(reading, garmentId);
  const commission = await commissionBook.one(reading, garment.commissionId);
  const studio = await studioBook.the(reading);
  const client = await clientBook.one(reading, commission.clientId);
  const type = await makingBook.type(reading, garment.typeId);
  const marks = await garmentMarkBook.ofGarment(reading, garmentId);
  const { finished, leftOut } = operationMarks(marks);
  return {
    studio,
    commission,
    garment,
    pattern: await patternBook.ofGarment(reading, garmentId),
    fittings: await fittingBook.ofGarment(reading, garmentId),
    plan: (await planBook.of(reading, garmentId)).filter(({ id }) => !leftOut.has(id)),
    finished,
    isCut: standingMarks(marks).some(({ kind }) => kind === 'cut'),
    head: {
      language: studio.identity.locale,
      studio: studio.identity.name,
      number: String(garment.place),
      garment: capitalised(type.name),
      commission: commission.number,
      clientCode: client.code,
    },
  };
};
