import { CommissionRow } from '../../rows/commissions/commission.row.js';
import { GarmentRow } from '../../rows/commissions/garment.row.js';
import type { Reading } from '../../session.js';
import { withoutMarks } from '../bench/without-marks.js';

/** A garment as the cloth room names it when something is cut for it. */
export type ServedGarment = {
  readonly id: string;
  readonly name: string;
  readonly place: number;
  readonly wearerId: string;
  readonly commissionId: string;
  readonly commissionNumber: string;
  readonly clientId: string;
  readonly payerId: string;
};

const garments = (reading: Reading) =>
  reading.manager
    .createQueryBuilder(GarmentRow, 'garment')
    .innerJoin(CommissionRow, 'commission', 'commission.id = garment.commission_id')
    .select('garment.id', 'id')
    .addSelect('garment.name', 'name')
    .addSelect('garment.place', 'place')
    .addSelect('garment.wearer_id', 'wearerId')
    .addSelect('garment.commission_id', 'commissionId')
    .addSelect('commission.number', 'commissionNumber')
    .addSelect('commission.client_id', 'clientId')
    .addSelect('commission.payer_id', 'payerId');

/** The newest garments that cloth may still go to, by commission and place. */
export const servedGarments = (reading: Reading, limit = 300): Promise<ServedGarment[]> =>
  withoutMarks(garments(reading), ['cancelled', 'closed'])
    .orderBy('garment.commission_id', 'DESC')
    .addOrderBy('garment.place')
    .limit(limit)
    .getRawMany<ServedGarment>();

/** One garment; none when it is not there any more. */
export const servedGarment = (reading: Reading, id: string): Promise<ServedGarment | undefined> =>
  garments(reading).where('garment.id = :id', { id }).getRawOne<ServedGarment>();

/** Garments by key; those that are gone are left out. */
export const garmentsNamed = async (
  reading: Reading,
  ids: readonly string[],
): Promise<Map<string, ServedGarment>> => {
  if (ids.length === 0) return new Map();
  const found = await garments(reading)
    .where('garment.id IN (:...ids)', { ids: [...new Set(ids)] })
    .getRawMany<ServedGarment>();
  return new Map(found.map((one) => [one.id, one]));
};
