import type { PlannedGarment } from '../../../domain/commissions/garment.js';
import type { GarmentType } from '../../../domain/making/garment-type.js';
import type { KnownOperation } from '../../../domain/making/known-operation.js';
import { startingPlan } from '../../../domain/making/starting-plan.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import type { PageWords } from '../../../web/reply.js';
import { extraNumbersOf, extrasOnJob } from '../extras/extras-on-job.js';
import { fittingsOnJob } from '../fittings/fittings-on-job.js';
import { landingOnJob } from '../landing/landing-on-job.js';
import { lifeOnJob } from '../life/life-on-job.js';
import { sumPanelOf } from '../sum/sum.page.js';
import { pricingOf } from '../sum/sum-of.js';
import { peopleOf } from '../tell-commission.js';
import { garmentIn } from './change-garment.js';
import { type JobLook, jobSheetPage } from './job-sheet.page.js';

/** The name of the frame that a change of the plan replaces: plan, materials and sum together. */
export const JOB_FRAME = 'job';

/** Gathers and draws a job sheet. @throws NotFound */
export const drawJobSheet = async (
  reading: Reading,
  clock: Clock,
  commissionId: string,
  id: string,
  look: JobLook = {},
): Promise<{ template: string; words: PageWords }> => {
  await garmentIn(reading, commissionId, id);
  const planned = await garmentBook.planned(reading, id);
  const pricing = await pricingOf(reading, clock, commissionId);
  const { garment } = planned;
  const type = await makingBook.type(reading, garment.typeId);
  const known = await makingBook.operations(reading, garment.typeId);
  const people = await peopleOf(reading, [pricing.commission.clientId, garment.wearerId]);
  const words = jobSheetPage(
    {
      studio: pricing.studio,
      commission: pricing.commission,
      planned,
      type,
      people,
      known,
      remarks: remarksOn(planned, type, known),
      sum: await sumPanelOf(pricing, planned),
      extraNumbers: await extraNumbersOf(reading, id),
    },
    look,
  );
  const life = await lifeOnJob(reading, garment, todayIn(clock, pricing.studio.identity.zone));
  const fittings = await fittingsOnJob(reading, clock, garment);
  const extras = await extrasOnJob(reading, garment, pricing.studio.identity.locale);
  const landing = await landingOnJob(reading, clock, id);
  return { template: 'commissions/garments/job', words: { ...words, fittings, life, extras, landing } };
};

/** What to know about the starting plan, for as long as its times stand in the plan unchanged. */
const remarksOn = (
  { garment, plan }: PlannedGarment,
  type: GarmentType,
  known: readonly KnownOperation[],
): readonly string[] => {
  if (type.isMenu) return [];
  const waits = plan.some(
    ({ fromStartingValues, mode, stage }) =>
      fromStartingValues &&
      ((garment.make === 'all-hand' && mode === 'machine') ||
        (garment.make === 'machine' && mode === 'hand' && stage === 'make')),
  );
  return waits ? startingPlan(type, garment.make, known, () => type.id).remarks : [];
};
