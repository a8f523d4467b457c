import { type Client, isChildOn } from '../../../domain/clients/client.js';
import type { Commission } from '../../../domain/commissions/commission.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import type { Correction } from '../../../domain/fitting/correction.js';
import type { Fitting } from '../../../domain/fitting/fitting.js';
import type { Pattern } from '../../../domain/fitting/pattern.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { fittingBook } from '../../../storage/books/fitting/fitting-book.js';
import { patternBook } from '../../../storage/books/fitting/pattern-book.js';
import { photoBook } from '../../../storage/books/fitting/photo-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { peopleOf } from '../tell-commission.js';
import { fittingIn, fittingSubject } from './keep-fitting.js';

/** What every page of a commission's fittings is drawn from. */
export type FittingsTold = {
  readonly commission: Commission;
  readonly garments: readonly Garment[];
  readonly people: ReadonlyMap<string, Client>;
  readonly fittings: readonly Fitting[];
  readonly today: string;
  readonly lengthUnit: StudioIdentity['lengthUnit'];
};

/** One fitting with all that hangs on it. */
export type FittingTold = FittingsTold & {
  readonly fitting: Fitting;
  readonly corrections: readonly Correction[];
  readonly patterns: ReadonlyMap<string, Pattern>;
  readonly photos: number;
  /** Wearers who are children on its day. */
  readonly children: readonly Client[];
};

/** @throws NotFound */
export const tellFittings = async (
  reading: Reading,
  clock: Clock,
  commissionId: string,
): Promise<FittingsTold> => {
  const commission = await commissionBook.one(reading, commissionId);
  const { identity } = await studioBook.the(reading);
  const garments = await garmentBook.ofCommission(reading, commissionId);
  return {
    commission,
    garments,
    people: await peopleOf(reading, [commission.clientId, ...garments.map(({ wearerId }) => wearerId)]),
    fittings: await fittingBook.ofCommission(reading, commissionId),
    today: todayIn(clock, identity.zone),
    lengthUnit: identity.lengthUnit,
  };
};

/** @throws NotFound */
export const tellFitting = async (
  reading: Reading,
  clock: Clock,
  commissionId: string,
  id: string,
): Promise<FittingTold> => {
  const fitting = await fittingIn(reading, commissionId, id);
  const told = await tellFittings(reading, clock, commissionId);
  const wearers = told.garments
    .filter((garment) => fitting.garmentIds.includes(garment.id))
    .flatMap(({ wearerId }) => told.people.get(wearerId) ?? []);
  return {
    ...told,
    fitting,
    corrections: await fittingBook.corrections(reading, id),
    patterns: await patternBook.ofGarments(reading, fitting.garmentIds),
    photos: (await photoBook.about(reading, fittingSubject(fitting))).length,
    children: [...new Set(wearers)].filter((wearer) => isChildOn(wearer, fitting.on)),
  };
};
