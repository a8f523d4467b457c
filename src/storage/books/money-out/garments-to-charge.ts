import { keptIn, type Reading } from '../../session.js';
import { garmentsWithin } from '../bench/open-garments.js';
import { withoutMarks } from '../bench/without-marks.js';

/** A garment that an expense or outwork can still be put to. */
export type GarmentToCharge = {
  readonly id: string;
  readonly name: string;
  readonly place: number;
  readonly commissionId: string;
  readonly commissionNumber: string;
};

const MOST = 300;

/** Garments neither closed nor cancelled, of the newest commissions first: a bill may come after the garment has left. */
export const garmentsToCharge = (reading: Reading): Promise<GarmentToCharge[]> =>
  keptIn(reading, 'garments to charge', () =>
    withoutMarks(garmentsWithin(reading), ['closed', 'cancelled'])
      .orderBy('garment.commission_id', 'DESC')
      .addOrderBy('garment.place')
      .limit(MOST)
      .getRawMany<GarmentToCharge>(),
  );
