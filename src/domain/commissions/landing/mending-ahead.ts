import { Decimal } from '../../kernel/decimal.js';

/**
 * Minutes that mending is likely to take of the work still to come: even-chance minutes left × the type's learnt share. A price bears
 * the same share of its even-chance minutes, so that a garment lands before its first stitch where it was priced.
 *
 * @param left minutes still to come at even chance, 0 or more, mending left out
 * @param share from 0; none where nothing was learnt
 * @returns minutes to a thousandth, half away from zero
 * @see mendingShare; test/domain/commissions/landing/mending-ahead.test.ts
 */
export const mendingAhead = (left: Decimal, share: Decimal = new Decimal(0)): Decimal =>
  left.times(share).toDecimalPlaces(3, Decimal.ROUND_HALF_UP);
