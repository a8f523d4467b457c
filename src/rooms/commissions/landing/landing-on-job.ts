import type { Clock } from '../../../storage/clock.js';
import { isUnderWay } from '../../../storage/landing/garment-under-way.js';
import type { Reading } from '../../../storage/session.js';
import { commissionUrl } from '../commission.page.js';
import { commissionLandingTold } from './gather-commission.js';
import { landingTold } from './gather-landing.js';
import { landingSection } from './landing.page.js';
import { landingPairs, leadInWords } from './landing-words.js';

/** The section of a job sheet; none before the first minute, when the sum beside the plan says it all. */
export const landingOnJob = async (
  reading: Reading,
  clock: Clock,
  garmentId: string,
): Promise<object | undefined> => {
  if (!(await isUnderWay(reading, garmentId))) return undefined;
  const told = await landingTold(reading, clock, garmentId);
  return told && landingSection(told);
};

/** The same of a whole commission. */
export const landingOnCommission = async (
  reading: Reading,
  clock: Clock,
  commissionId: string,
  garmentIds: readonly string[],
): Promise<object | undefined> => {
  const begun = await Promise.all(garmentIds.map((id) => isUnderWay(reading, id)));
  if (!begun.some(Boolean)) return undefined;
  const told = await commissionLandingTold(reading, clock, commissionId);
  if (!told) return undefined;
  const { locale } = told.studio.identity;
  const url = `${commissionUrl(commissionId)}/landing`;
  return {
    lead: leadInWords(told.landing, locale),
    pairs: landingPairs(told.landing, url, locale),
    earned: [],
    url,
  };
};
