import { ClientRow } from '../../rows/clients/client.row.js';
import { CommissionRow } from '../../rows/commissions/commission.row.js';
import { GarmentRow } from '../../rows/commissions/garment.row.js';
import { keptIn, type Reading } from '../../session.js';
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
  keptIn(reading, 'garments to charge', () => {
    const all = reading.manager
      .createQueryBuilder(GarmentRow, 'garment')
      .innerJoin(CommissionRow, 'commission', 'commission.id = garment.commission_id')
      .innerJoin(ClientRow, 'wearer', 'wearer.id = garment.wearer_id')
      .select('garment.id', 'id')
      .addSelect('garment.name', 'name')
      .addSelect('garment.place', 'place')
      .addSelect('garment.commission_id', 'commissionId')
      .addSelect('commission.number', 'commissionNumber')
      .where('garment.id IS NOT NULL');
    return withoutMarks(all, ['closed', 'cancelled'])
      .orderBy('garment.commission_id', 'DESC')
      .addOrderBy('garment.place')
      .limit(MOST)
      .getRawMany<GarmentToCharge>();
  });
