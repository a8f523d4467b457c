import type { SelectQueryBuilder } from 'typeorm';
import type { GarmentMarkKind } from '../../../domain/commissions/garment-mark.js';

/**
 * Leaves garments with a standing mark of these kinds out of a query that has them as `garment`: a mark stands until another
 * takes it back. Reads by ix_garment_mark_garment.
 */
export const withoutMarks = <Row extends object>(
  query: SelectQueryBuilder<Row>,
  kinds: readonly GarmentMarkKind[],
): SelectQueryBuilder<Row> =>
  query.andWhere(
    `NOT EXISTS (SELECT 1 FROM garment_mark mark WHERE mark.garment_id = garment.id AND mark.of_id IS NULL
      AND mark.kind IN (:...ended) AND NOT EXISTS (SELECT 1 FROM garment_mark back
      WHERE back.garment_id = mark.garment_id AND back.of_id = mark.id))`,
    { ended: [...kinds] },
  );
