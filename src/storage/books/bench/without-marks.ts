import type { ObjectLiteral, SelectQueryBuilder } from 'typeorm';
import type { GarmentMarkKind } from '../../../domain/commissions/garment-mark.js';

/**
 * Leaves garments with a standing mark of these kinds out of a query that has them as `garment`. A mark stands until another of
 * the same kind takes it back, so both are read by ix_garment_mark_kind, and the many marks on operations are not looked at.
 */
export const withoutMarks = <Row extends ObjectLiteral>(
  query: SelectQueryBuilder<Row>,
  kinds: readonly GarmentMarkKind[],
): SelectQueryBuilder<Row> =>
  query.andWhere(
    `garment.id NOT IN (SELECT mark.garment_id FROM garment_mark mark WHERE mark.kind IN (:...ended)
      AND mark.of_id IS NULL AND mark.id NOT IN (SELECT back.of_id FROM garment_mark back
      WHERE back.kind IN (:...ended) AND back.of_id IS NOT NULL))`,
    { ended: [...kinds] },
  );
