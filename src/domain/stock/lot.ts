import type { ChargedAt } from '../commissions/garment.js';
import type { CalendarDate } from '../kernel/calendar-date.js';
import type { Decimal } from '../kernel/decimal.js';
import type { Money } from '../kernel/money.js';
import type { TypedLength } from './material.js';

/** Where a lot came from: bought, owned before, left over from a garment, or the client's own. */
export const ORIGINS = ['bought', 'stash', 'offcut', 'custody'] as const;
export type Origin = (typeof ORIGINS)[number];

/** Is it old? Unknown age calls the same cautions as old does. */
export const AGES = ['new', 'old', 'unknown'] as const;
export type Age = (typeof AGES)[number];

/** A caution that stands on a lot's record, and when somebody put it away. */
export type KeptCaution = {
  readonly id: string;
  readonly sentence: string;
  readonly dismissedAt: string | undefined;
  readonly dismissedBy: string | undefined;
};

/** One delivery of a material. What it is never changes; what is left of it follows the movements. */
export type Lot = {
  readonly id: string;
  readonly version: number;
  /** `L-0012`, to write on the piece. */
  readonly code: string;
  readonly materialId: string;
  readonly origin: Origin;
  readonly purchaseId: string | undefined;
  /** The planned line it was bought for. */
  readonly lineId: string | undefined;
  readonly cameOn: CalendarDate;
  readonly received: Decimal;
  /** Price of one, before freight, duty and tax. */
  readonly unitPrice: Decimal | undefined;
  /** What it cost on the shelf; nil where it cost nothing or nobody knows. */
  readonly landed: Money;
  /** Nobody knows what it cost. */
  readonly costUnknown: boolean;
  readonly left: Decimal;
  readonly value: Money;
  readonly width: TypedLength;
  readonly dyeLot: string;
  readonly flaws: string;
  readonly age: Age;
  readonly believedAge: string;
  readonly provenance: string;
  readonly replacementUnitCost: Decimal | undefined;
  readonly chargeAt: ChargedAt;
  readonly chargeReason: string;
  /** Whose cloth it is, when it is not ours. */
  readonly ownerId: string | undefined;
  readonly smell: string;
  readonly shrinkTest: string;
  readonly cautions: readonly KeptCaution[];
};

/**
 * Do its deliveries flow together where a material is not costed by the very piece? Stash, offcuts and clients' cloth
 * never do: they are not interchangeable with what is bought.
 *
 * @see IAS 2, paragraph 23
 */
export const isInterchangeable = (lot: Pick<Lot, 'origin'>): boolean => lot.origin === 'bought';

/** What a lot is charged at, for one: replacement value, cost, or nothing. @returns unrounded, in major units */
export const chargedUnit = (lot: Lot, unitCost: Decimal): Decimal => {
  if (lot.origin === 'custody' || lot.chargeAt === 'nil') return unitCost.times(0);
  if (lot.chargeAt === 'cost') return unitCost;
  return lot.replacementUnitCost ?? unitCost;
};

/** The usual remedies when a client's cloth is too short, mildest first: common practice, no source. */
export const SHORT_CLOTH_REMEDIES: readonly string[] = [
  'Lay it again: turn pieces where nap and pattern allow, and let small pieces share the fold.',
  'Cut the facings, under collar and pocket jets from another cloth.',
  'Piece where it is hidden: under the collar, inside the fork, at the top of the sleeve lining.',
  'Join the cloth on the straight grain and lay the seam under a pocket or belt.',
  'Shorten hems and turn-ups, or face the hems instead of turning them.',
  'Choose a make that takes less: single-breasted, plain back, no turn-ups.',
  'Match a second cloth openly: yoke, cuffs, collar, back of the waistcoat.',
  'Tell the client before anything is cut.',
];
