import type { Commission } from '../../../domain/commissions/commission.js';
import { commissionLanding } from '../../../domain/commissions/landing/commission-landing.js';
import type { Landing } from '../../../domain/commissions/landing/landing.js';
import type { Studio } from '../../../domain/house/studio.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Clock } from '../../../storage/clock.js';
import { lessonBook } from '../../../storage/lesson/lesson-book.js';
import type { Reading } from '../../../storage/session.js';
import { type LandingTold, landingTold } from './gather-landing.js';

/** Where a commission will land: its garments that were not cancelled, each and together. */
export type CommissionLandingTold = {
  readonly studio: Studio;
  readonly commission: Commission;
  readonly garments: readonly LandingTold[];
  readonly landing: Landing;
};

/** Gathers where a commission will land; undefined while the studio has no rates. @throws NotFound */
export const commissionLandingTold = async (
  reading: Reading,
  clock: Clock,
  commissionId: string,
): Promise<CommissionLandingTold | undefined> => {
  const commission = await commissionBook.one(reading, commissionId);
  const studio = await studioBook.the(reading);
  const told: LandingTold[] = [];
  for (const { id } of await garmentBook.ofCommission(reading, commissionId)) {
    const one = await landingTold(reading, clock, id);
    if (!one) return undefined;
    if (one.work.standing !== 'cancelled') told.push(one);
  }
  const lesson = await lessonBook.present(reading);
  return {
    studio,
    commission,
    garments: told,
    landing: commissionLanding(told, lesson, studio.identity.currency),
  };
};
